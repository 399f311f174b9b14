import { createHash } from "node:crypto";
import type { Io } from "../../io/io.ts";
import { describeSystemError, isSystemError } from "../../io/system-errors.ts";
import { writeAtomically } from "../../io/write-atomically.ts";
import { FILE_LIMITS } from "../../project/limits.ts";
import { textOf } from "../../project/load-file.ts";
import type { JobText, Save, Saved } from "./messages.ts";

/** The job's text as it stands on the disk; undefined when there is none to read. */
export function readJobText(path: string, io: Io): JobText | undefined {
  const read = io.readFile(io.realPath(path) ?? path, FILE_LIMITS.yaml);
  if (read.kind !== "read") return undefined;
  const text = textOf(read.bytes);
  const stamp = stampOf(read.bytes);
  // What cannot be written back as it was is not to be written at all.
  return stampOf(encode(text)) === stamp
    ? { text, stamp }
    : { text, stamp, why: "the file is not UTF-8 text: it can be looked at, but not edited here" };
}

/** Saves a text, if what it was made from still stands there. A link that the person named is followed, not replaced. */
export function saveJobText(path: string, { text, over }: Save, io: Io): Saved {
  const bytes = encode(text);
  if (bytes.length > FILE_LIMITS.yaml)
    return { kind: "refused", why: `a job file has at most ${FILE_LIMITS.yaml / 1024} kB: nothing was saved` };
  const real = io.realPath(path) ?? path;
  const theirs = readJobText(path, io);
  if (theirs?.stamp !== over) return { kind: "conflict", ...(theirs ? { theirs } : {}) };
  if (!theirs && io.stat(real))
    return { kind: "refused", why: "something stands there that is not a plain file of a job: nothing was saved" };
  try {
    writeAtomically(real, bytes);
    return { kind: "saved", stamp: stampOf(bytes) };
  } catch (error) {
    if (!isSystemError(error)) throw error;
    return { kind: "refused", why: describeSystemError(error) };
  }
}

const encode = (text: string) => new TextEncoder().encode(text);
const stampOf = (bytes: Uint8Array) => createHash("sha256").update(bytes).digest("hex");
