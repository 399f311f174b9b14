/** A text set on lines of limited width; `cut` when words had to go and an ellipsis stands for them. */
export type Fitted = { readonly lines: readonly string[]; readonly width: number; readonly cut: boolean };

/** Sets a text on at most `most` lines no wider than `limit`, broken at spaces; what does not fit ends in an ellipsis. */
export function fitText(text: string, limit: number, most: number, width: (text: string) => number): Fitted {
  const words = text.trim().split(/\s+/u);
  const lines: string[] = [];
  let line = words.shift() ?? "";
  for (const word of words) {
    const longer = `${line} ${word}`;
    if (lines.length === most - 1 || width(longer) <= limit) line = longer;
    else {
      lines.push(line);
      line = word;
    }
  }
  lines.push(line);
  const fitted = lines.map((each) => cutText(each, limit, width));
  return { lines: fitted, width: Math.max(...fitted.map(width)), cut: fitted.some((each, i) => each !== lines[i]) };
}

/** The text, or as much of its start as fits before an ellipsis. */
function cutText(text: string, limit: number, width: (text: string) => number): string {
  if (width(text) <= limit) return text;
  const letters = [...new Intl.Segmenter("en").segment(text)].map(({ segment }) => segment);
  for (let count = letters.length - 1; count > 0; count--) {
    const cut = `${letters.slice(0, count).join("").trimEnd()}…`;
    if (width(cut) <= limit) return cut;
  }
  return "…";
}
