import { type SquareMetres, squareMetres } from "../units/quantity.ts";
import type { RoundedRectangle } from "./model.ts";

/**
 * Area of a rectangle with four equal round corners, as of a pinch or a port's opening.
 *
 *     A = w h − (4 − π) r²
 *
 * @param shape  width w, height h, corner radius r [m]; r from 0 to half the shorter side
 * @returns      A [m²]; a plain rectangle at r = 0, a circle when r is half of both sides
 * @example      roundedRectangleArea({ width: 0.030, height: 0.048, corner: 0.008 }) // 1.38506e-3
 */
export function roundedRectangleArea(shape: RoundedRectangle): SquareMetres {
  return squareMetres(shape.width * shape.height - (4 - Math.PI) * shape.corner ** 2);
}
