import { SVGPathData } from "svg-pathdata";
import type { Matrix } from "./matrix.ts";

/** Absolute coordinates; arcs and quadratic curves are cubic ones here. */
export type PathStep =
  | readonly ["M" | "L", number, number]
  | readonly ["C", number, number, number, number, number, number]
  | readonly ["Z"];

/** Parses path data and maps it; undefined where it cannot be read. */
export function parsePath(d: string, [a, b, c, e, f, g]: Matrix): readonly PathStep[] | undefined {
  try {
    const { commands } = new SVGPathData(d)
      .toAbs()
      .normalizeHVZ(false)
      .normalizeST()
      .qtToC()
      .aToC()
      .matrix(a, b, c, e, f, g);
    const steps = commands.flatMap((one): PathStep[] => {
      if (one.type === SVGPathData.MOVE_TO) return [["M", one.x, one.y]];
      if (one.type === SVGPathData.LINE_TO) return [["L", one.x, one.y]];
      if (one.type === SVGPathData.CURVE_TO) return [["C", one.x1, one.y1, one.x2, one.y2, one.x, one.y]];
      return one.type === SVGPathData.CLOSE_PATH ? [["Z"]] : [];
    });
    return steps.every(([, ...places]) => places.every(Number.isFinite)) ? steps : undefined;
  } catch {
    return undefined;
  }
}
