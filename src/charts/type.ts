import type { Measure, Weight } from "../text/measure.ts";
import type { DrawingRole, TextItem } from "./drawing.ts";
import { roundPoint } from "./round-point.ts";
import { TYPE_SIZE } from "./shape-parts.ts";

/** Distance between baselines of chart text [pt]. */
export const LEAD = 10.5;
/** Height of a box round one line of chart text, and its baseline from the box's top [pt]. */
export const LINE = 9.5;
export const BASELINE = 7.25;

export type TextLook = { readonly role: DrawingRole; readonly color: string; readonly weight?: Weight };

/** Width of chart text set on one line [pt]. */
export const widthIn =
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
