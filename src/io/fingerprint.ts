import { createHash } from "node:crypto";
import { readdirSync, readFileSync, type Stats, statSync } from "node:fs";

/** What stood at a path at one look. Two looks of equal `content` found the same thing. */
export type Fingerprint = { readonly content: string; readonly seen: string };

/** Some disks count time in steps of two seconds: a file as young as this may change again under the same time [ms]. */
const YOUNG = 3000;
/** Larger files are told apart by time and size alone [bytes]. */
const HASHED = 64 * 1024 * 1024;

/** Looks at a path, links followed. The file is only read again when its time, size or number differ from the look before, or it is young. */
export function fingerprint(path: string, before?: Fingerprint, now = Date.now()): Fingerprint {
  try {
    const found = statSync(path);
    if (found.isDirectory()) return same(`folder\n${readdirSync(path).toSorted().join("\n")}`);
    if (!found.isFile()) return same("other");
    const seen = `${found.mtimeMs} ${found.size} ${found.ino}`;
    if (before?.seen === seen && now - found.mtimeMs > YOUNG) return before;
    return { content: contentOf(path, found, seen), seen };
  } catch {
    return same("nothing");
  }
}

const contentOf = (path: string, { size }: Stats, seen: string): string =>
  size > HASHED ? `file ${seen}` : `file ${createHash("sha256").update(readFileSync(path)).digest("hex")}`;

const same = (content: string): Fingerprint => ({ content, seen: content });
