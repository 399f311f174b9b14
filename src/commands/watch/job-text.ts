import { createHash } from "node:crypto";
import type { Io } from "../../io/io.ts";
import { describeSystemError, isSystemError } from "../../io/system-errors.ts";
import { writeAtomically } from "../../io/write-atomically.ts";
import { FILE_LIMITS } from "../../project/limits.ts";
import { decodeText } from "../../project/load-file.ts";
import type { JobText, SaveRequest, SaveResult } from "./messages.ts";

/** Text of the job file; undefined when there is no readable file. */
export function readJobText(path: string, io: Io): JobText | undefined {
  const read = io.readFile(io.realPath(path) ?? path, FILE_LIMITS.yaml);
  if (read.kind !== "read") return undefined;
  const text = decodeText(read.bytes);
  const stamp = stampOf(read.bytes);
  // Text that does not encode to the same bytes is read-only.
  return stampOf(encodeText(text)) === stamp
    ? { text, stamp }
    : { text, stamp, why: "the file is not UTF-8 text: it can be looked at, but not edited here" };
}

/** Saves a text unless the file has changed since it was read. A symbolic link is followed, not replaced. */
export function saveJobText(path: string, { text, over }: SaveRequest, io: Io): SaveResult {
  const bytes = encodeText(text);
  if (bytes.length > FILE_LIMITS.yaml)
    return { kind: "refused", why: `a job file has at most ${FILE_LIMITS.yaml / 1024} kB: nothing was saved` };
  const real = io.realPath(path) ?? path;
  const current = readJobText(path, io);
  if (current?.stamp !== over) return { kind: "conflict", ...(current ? { theirs: current } : {}) };
  if (!current && io.stat(real))
    return { kind: "refused", why: "something stands there that is not a plain file of a job: nothing was saved" };
  try {
    writeAtomically(real, bytes);
    return { kind: "saved", stamp: stampOf(bytes) };
  } catch (error) {
    if (!isSystemError(error)) throw error;
    return { kind: "refused", why: describeSystemError(error) };
  }
}

const encodeText = (text: string) => new TextEncoder().encode(text);
const stampOf = (bytes: Uint8Array) => createHash("sha256").update(bytes).digest("hex");
