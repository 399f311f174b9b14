/** Lines [from, to) of one text that stand as [start, end) in another. */
export type Hunk = { readonly from: number; readonly to: number; readonly start: number; readonly end: number };

/** Upper limit of lines compared by longest common subsequence; longer ranges are one hunk. */
const MOST_LINES = 1000;

/** The differences of two lists of lines, in order. */
export function diffHunks(a: readonly string[], b: readonly string[]): readonly Hunk[] {
  let head = 0;
  while (head < a.length && head < b.length && a[head] === b[head]) head++;
  let tail = 0;
  while (tail < a.length - head && tail < b.length - head && a.at(-1 - tail) === b.at(-1 - tail)) tail++;
  return middleHunks(a.slice(head, a.length - tail), b.slice(head, b.length - tail)).map(
    ({ from, to, start, end }) => ({
      from: from + head,
      to: to + head,
      start: start + head,
      end: end + head,
    }),
  );
}

function middleHunks(a: readonly string[], b: readonly string[]): readonly Hunk[] {
  if (a.length + b.length === 0) return [];
  if (a.length * b.length === 0 || a.length > MOST_LINES || b.length > MOST_LINES)
    return [{ from: 0, to: a.length, start: 0, end: b.length }];
  const commonFrom = commonLengths(a, b);
  const hunks: Hunk[] = [];
  let [i, j] = [0, 0];
  while (i < a.length || j < b.length) {
    const [from, start] = [i, j];
    while ((i < a.length || j < b.length) && !(i < a.length && j < b.length && a[i] === b[j]))
      if (j < b.length && (i === a.length || commonFrom(i, j + 1) >= commonFrom(i + 1, j))) j++;
      else i++;
    if (i > from || j > start) hunks.push({ from, to: i, start, end: j });
    while (i < a.length && j < b.length && a[i] === b[j]) {
      i++;
      j++;
    }
  }
  return hunks;
}

/** Lengths of the longest common subsequences from each pair of lines to the end. */
function commonLengths(a: readonly string[], b: readonly string[]): (i: number, j: number) => number {
  const width = b.length + 1;
  const best = new Uint16Array((a.length + 1) * width);
  for (let i = a.length - 1; i >= 0; i--)
    for (let j = b.length - 1; j >= 0; j--)
      best[i * width + j] =
        a[i] === b[j]
          ? best[(i + 1) * width + j + 1]! + 1
          : Math.max(best[(i + 1) * width + j]!, best[i * width + j + 1]!);
  return (i, j) => best[i * width + j]!;
}
