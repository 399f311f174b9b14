import { diffHunks } from "./line-hunks.ts";

/** A line of one text or of both; `gap` stands for omitted common lines. */
type DifferentLine = { readonly side: "mine" | "theirs" | "both" | "gap"; readonly text: string };

/** Line diff of two texts with one line of context. */
export function lineDifference(mine: string, theirs: string): readonly DifferentLine[] {
  const [a, b] = [mine.split(/\r?\n/), theirs.split(/\r?\n/)];
  const shown: DifferentLine[] = [];
  let next = 0;
  const showCommon = (line: number) => {
    if (line < next || line >= a.length) return;
    if (line > next && shown.length > 0) shown.push({ side: "gap", text: "" });
    shown.push({ side: "both", text: a[line]! });
    next = line + 1;
  };
  for (const { from, to, start, end } of diffHunks(a, b)) {
    showCommon(from - 1);
    for (const text of b.slice(start, end)) shown.push({ side: "theirs", text });
    for (const text of a.slice(from, to)) shown.push({ side: "mine", text });
    next = to;
    if (to < a.length) showCommon(to);
  }
  return shown;
}
