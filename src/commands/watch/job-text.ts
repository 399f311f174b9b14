import { createHash } from "node:crypto";
import type { Io } from "../../io/io.ts";
import { saveOver } from "../../io/save-over.ts";
import { describeSystemError, isSystemError } from "../../io/system-errors.ts";
import { FILE_LIMITS } from "../../project/limits.ts";
import { decodeText } from "../../project/load-file.ts";
import type { JobText, SaveRequest, SaveResult } from "./messages.ts";

/** Text of the job file, its links resolved; undefined when there is no readable file. */
export function readJobText(real: string, io: Io): JobText | undefined {
  const read = io.readFile(real, FILE_LIMITS.yaml);
  return read.kind === "read" ? jobTextOf(read.bytes) : undefined;
}

function jobTextOf(bytes: Uint8Array): JobText {
  const text = decodeText(bytes);
  const stamp = stampOf(bytes);
  // Text that does not encode to the same bytes is read-only.
  return stampOf(encodeText(text)) === stamp
    ? { text, stamp }
    : { text, stamp, why: "the file is not UTF-8 text: it can be looked at, but not edited here" };
}

/** Saves a text unless the file has changed since it was read. */
export function saveJobText(real: string, { text, over }: SaveRequest, io: Io): SaveResult {
  const bytes = encodeText(text);
  if (bytes.length > FILE_LIMITS.yaml)
    return { kind: "refused", why: `a job file has at most ${FILE_LIMITS.yaml / 1024} kB: nothing was saved` };
  const read = io.readFile(real, FILE_LIMITS.yaml);
  if (read.kind !== "read" && read.kind !== "missing")
    return { kind: "refused", why: "something stands there that is not a plain file of a job: nothing was saved" };
  const before = read.kind === "read" ? read.bytes : undefined;
  if ((before && stampOf(before)) !== over)
    return { kind: "conflict", ...(before ? { theirs: jobTextOf(before) } : {}) };
  try {
    const done = saveOver(real, before, text);
    if (done.kind === "refused") return done;
    if (done.kind === "saved") return { ...done, stamp: stampOf(bytes) };
    const theirs = readJobText(real, io);
    return { kind: "conflict", ...(theirs ? { theirs } : {}) };
  } catch (error) {
    if (!isSystemError(error)) throw error;
    return { kind: "refused", why: describeSystemError(error) };
  }
}

const encodeText = (text: string) => new TextEncoder().encode(text);
const stampOf = (bytes: Uint8Array) => createHash("sha256").update(bytes).digest("hex");
