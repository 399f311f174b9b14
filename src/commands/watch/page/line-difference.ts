/** A line of one text or of both; `gap` stands for omitted common lines. */
type DifferentLine = { readonly side: "mine" | "theirs" | "both" | "gap"; readonly text: string };

/** Upper limit of lines compared by longest common subsequence; longer ranges are shown whole. */
const MOST_LINES = 1000;

/** Line diff of two texts with one line of context. */
export function lineDifference(mine: string, theirs: string): readonly DifferentLine[] {
  const [a, b] = [mine.split(/\r?\n/), theirs.split(/\r?\n/)];
  let head = 0;
  while (head < a.length && head < b.length && a[head] === b[head]) head++;
  let tail = 0;
  while (tail < a.length - head && tail < b.length - head && a.at(-1 - tail) === b.at(-1 - tail)) tail++;
  const middle = diffLines(a.slice(head, a.length - tail), b.slice(head, b.length - tail));
  const both = (lines: readonly string[]): readonly DifferentLine[] => lines.map((text) => ({ side: "both", text }));
  if (middle.length === 0) return [];
  return [...both(a.slice(Math.max(0, head - 1), head)), ...middle, ...both(a.slice(a.length - tail).slice(0, 1))];
}

function diffLines(a: readonly string[], b: readonly string[]): readonly DifferentLine[] {
  const only = (side: "mine" | "theirs", lines: readonly string[]): readonly DifferentLine[] =>
    lines.map((text) => ({ side, text }));
  if (a.length * b.length === 0 || a.length > MOST_LINES || b.length > MOST_LINES)
    return [...only("theirs", b), ...only("mine", a)];
  // Lengths of the longest common subsequences from each pair of lines to the end.
  const width = b.length + 1;
  const best = new Uint16Array((a.length + 1) * width);
  for (let i = a.length - 1; i >= 0; i--)
    for (let j = b.length - 1; j >= 0; j--)
      best[i * width + j] =
        a[i] === b[j]
          ? best[(i + 1) * width + j + 1]! + 1
          : Math.max(best[(i + 1) * width + j]!, best[i * width + j + 1]!);
  const lines: DifferentLine[] = [];
  for (let i = 0, j = 0; i < a.length || j < b.length; ) {
    if (i < a.length && j < b.length && a[i] === b[j]) {
      lines.push({ side: "both", text: a[i]! });
      i++;
      j++;
    } else if (j < b.length && (i === a.length || best[i * width + j + 1]! >= best[(i + 1) * width + j]!))
      lines.push({ side: "theirs", text: b[j++]! });
    else lines.push({ side: "mine", text: a[i++]! });
  }
  return lines.flatMap((line, at) => {
    if (line.side !== "both" || isEdge(lines, at)) return [line];
    return isEdge(lines, at - 1) ? [{ side: "gap", text: "" }] : [];
  });
}

/** Whether a neighbouring line differs. */
const isEdge = (lines: readonly DifferentLine[], at: number) =>
  [lines[at - 1], lines[at + 1]].some((near) => near !== undefined && near.side !== "both");
