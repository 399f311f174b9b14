import { createHash } from "node:crypto";
import { readdirSync, readFileSync, type Stats, statSync } from "node:fs";

/** State of a path at one time: equal `content` means equal files; `seen` is the cheap part (time, size, inode). */
export type Fingerprint = { readonly content: string; readonly seen: string };

/** Some file systems store times in steps of two seconds: a younger file may change again under an equal time [ms]. */
const YOUNG = 3000;
/** Larger files are compared by time and size only [bytes]. */
const HASHED = 64 * 1024 * 1024;

/** Takes the fingerprint of a path, links resolved. Reads the file again only if its time, size or inode changed, or it is young. */
export function fingerprint(path: string, before?: Fingerprint, now = Date.now()): Fingerprint {
  try {
    const found = statSync(path);
    if (found.isDirectory()) return contentOnly(`folder\n${readdirSync(path).toSorted().join("\n")}`);
    if (!found.isFile()) return contentOnly("other");
    const seen = `${found.mtimeMs} ${found.size} ${found.ino}`;
    if (before?.seen === seen && now - found.mtimeMs > YOUNG) return before;
    return { content: contentOf(path, found, seen), seen };
  } catch {
    return contentOnly("nothing");
  }
}

const contentOf = (path: string, { size }: Stats, seen: string): string =>
  size > HASHED ? `file ${seen}` : `file ${createHash("sha256").update(readFileSync(path)).digest("hex")}`;

const contentOnly = (content: string): Fingerprint => ({ content, seen: content });
