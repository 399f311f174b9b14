import type { Measure, Weight } from "../text/measure.ts";
import { type DrawingRole, roundPoint, type TextItem } from "./drawing.ts";
import { TYPE_SIZE } from "./shape-parts.ts";

/** Distance between baselines of chart text [pt]. */
export const LEAD = 10.5;
/** Height of one line's box, and its baseline from the box's top [pt]. */
export const LINE = 9.5;
export const BASELINE = 7.25;

type TextLook = { readonly role: DrawingRole; readonly color: string; readonly weight?: Weight };

/** Returns a function that gives the width of one line of chart text [pt]. */
export const textWidth =
  (measure: Measure, weight: Weight = "regular") =>
  (text: string) =>
    measure.width(text, weight, TYPE_SIZE);

/** One line of chart text whose left edge, middle or right edge lies at x. */
export function chartText(
  text: string,
  x: number,
  y: number,
  align: "left" | "center" | "right",
  look: TextLook,
  measure: Measure,
): TextItem {
  const weight = look.weight ?? "regular";
  const width = measure.width(text, weight, TYPE_SIZE);
  const left = align === "left" ? x : align === "center" ? x - width / 2 : x - width;
  return {
    kind: "text",
    role: look.role,
    text,
    x: roundPoint(left),
    y: roundPoint(y),
    size: TYPE_SIZE,
    weight,
    color: look.color,
  };
}

/** Text on lines of limited width; `cut` if an ellipsis replaces part of it. */
export type FittedText = { readonly lines: readonly string[]; readonly width: number; readonly cut: boolean };

/** Breaks a text at spaces into at most `most` lines no wider than `limit`; truncates with an ellipsis. */
export function fitText(text: string, limit: number, most: number, width: (text: string) => number): FittedText {
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
  const fitted = lines.map((each) => truncateText(each, limit, width));
  return { lines: fitted, width: Math.max(...fitted.map(width)), cut: fitted.some((each, i) => each !== lines[i]) };
}

/** Truncates a text to a width, with an ellipsis. */
function truncateText(text: string, limit: number, width: (text: string) => number): string {
  if (width(text) <= limit) return text;
  const letters = [...new Intl.Segmenter("en").segment(text)].map(({ segment }) => segment);
  for (let count = letters.length - 1; count > 0; count--) {
    const cut = `${letters.slice(0, count).join("").trimEnd()}…`;
    if (width(cut) <= limit) return cut;
  }
  return "…";
}
