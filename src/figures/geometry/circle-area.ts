import { type Metres, type SquareMetres, squareMetres } from "../../units/quantity.ts";

/**
 * Area of a circle, as of a valve head, a bore or a gasket ring.
 *
 *     A = π · D² ÷ 4
 *
 * @param diameter  diameter D [m], 0 or greater
 * @returns         A [m²]; 0 for a point
 * @source          elementary geometry
 * @example         circleArea(metres(0.040)) // 1.25664e-3
 */
export function circleArea(diameter: Metres): SquareMetres {
  return squareMetres((Math.PI * diameter * diameter) / 4);
}
