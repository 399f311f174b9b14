const foldWord = (word: string) =>
  word
    .slice(0, 64)
    .toLowerCase()
    .replace(/[_\-\s]/g, "");

/** Number of edits (insert, delete, replace, transpose neighbours) that turn one word into another. */
export function editDistance(from: string, to: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: to.length + 1 }, (_, column) => column);
  for (let i = 1; i <= from.length; i++) {
    const row = [i];
    for (let j = 1; j <= to.length; j++) {
      const same = from[i - 1] === to[j - 1];
      let best = Math.min(row[j - 1]! + 1, last[j]! + 1, last[j - 1]! + (same ? 0 : 1));
      if (i > 1 && j > 1 && from[i - 1] === to[j - 2] && from[i - 2] === to[j - 1]) {
        best = Math.min(best, beforeLast[j - 2]! + 1);
      }
      row.push(best);
    }
    beforeLast = last;
    last = row;
  }
  return last[to.length]!;
}

/** The candidate nearest to a mistyped word, undefined when none is near. Ignores case, `_`, `-` and blanks. */
export function didYouMean(word: string, candidates: readonly string[]): string | undefined {
  const wanted = foldWord(word);
  if (wanted === "") return undefined;
  const scored = candidates
    .map((name) => ({ name, key: foldWord(name) }))
    .map(({ name, key }) => ({ name, key, distance: editDistance(wanted, key), head: key[0] === wanted[0] ? 0 : 1 }))
    .filter(({ key, distance }) => distance <= mostEdits(Math.min(wanted.length, key.length)))
    .sort((a, b) => a.distance - b.distance || a.head - b.head);
  if (scored[0]) return scored[0].name;
  // A unique prefix counts too: `temp` for `temperature`.
  const longer = candidates.filter((name) => wanted.length >= 3 && foldWord(name).startsWith(wanted));
  return longer.length === 1 ? longer[0] : undefined;
}

/** One edit for every three letters; none for a single letter, which is near every other. */
const mostEdits = (length: number) => (length < 2 ? 0 : Math.max(1, Math.floor(length / 3)));
