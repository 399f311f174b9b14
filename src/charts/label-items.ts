import type { ChartEnv } from "./chart-env.ts";
import type { DrawingItem } from "./drawing.ts";
import type { Fitted } from "./fit-text.ts";
import type { Point } from "./geometry.ts";
import { MARKER_REACH } from "./markers.ts";
import { roundPoint } from "./round-point.ts";
import { BASELINE, chartText, LEAD, LINE } from "./type.ts";

/** A label ready to be set; an end label knows the line's end that it names, and that line's colour. */
export type Label = { readonly text: Fitted; readonly color: string };
export type EndLabel = Label & { readonly lineColor: string; readonly end: Point };

export const heightOf = ({ lines }: Fitted) => LINE + (lines.length - 1) * LEAD;

/** A label's lines, its box's corner at (x, top). */
export const linesOf = ({ text, color }: Label, x: number, top: number, { measure }: ChartEnv) =>
  text.lines.map((line, i) => chartText(line, x, top + BASELINE + i * LEAD, "left", { role: "label", color }, measure));

/** A thin line from clear of a line's end to its label. */
export function leader({ end: [x, y], lineColor }: EndLabel, [toX, toY]: Point): DrawingItem {
  const length = Math.hypot(toX - x, toY - y);
  const start = Math.min(1, MARKER_REACH / length);
  return {
    kind: "path",
    role: "label",
    d: [
      ["M", roundPoint(x + (toX - x) * start), roundPoint(y + (toY - y) * start)],
      ["L", roundPoint(toX), roundPoint(toY)],
    ],
    stroke: { color: lineColor, width: 0.5 },
  };
}
