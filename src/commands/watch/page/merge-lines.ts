import { diffHunks, type Hunk } from "./line-hunks.ts";

/** Merges two texts made from one base by lines; undefined where both changed the same lines, or wrote at the same place. */
export function mergeLines(base: string, mine: string, theirs: string): string | undefined {
  const [lines, own, others] = [base, mine, theirs].map((text) => text.split("\n")) as [string[], string[], string[]];
  const changes = [
    ...diffHunks(lines, own).map((hunk) => ({ hunk, text: own.slice(hunk.start, hunk.end) })),
    ...diffHunks(lines, others).map((hunk) => ({ hunk, text: others.slice(hunk.start, hunk.end) })),
  ].toSorted((one, other) => one.hunk.from - other.hunk.from || one.hunk.to - other.hunk.to);
  const merged: string[] = [];
  let next = 0;
  for (const [index, { hunk, text }] of changes.entries()) {
    const before = changes[index - 1];
    if (before && overlap(before.hunk, hunk)) {
      const isSame =
        before.hunk.from === hunk.from && before.hunk.to === hunk.to && before.text.join("\n") === text.join("\n");
      if (!isSame) return undefined;
      continue;
    }
    merged.push(...lines.slice(next, hunk.from), ...text);
    next = hunk.to;
  }
  return [...merged, ...lines.slice(next)].join("\n");
}

/** Whether two ranges share a line, or both insert at one place. */
const overlap = (one: Hunk, other: Hunk) =>
  one.from === other.from && one.to === other.to ? true : one.from < other.to && other.from < one.to;
