import { type Rpm, rpm } from "../../units/quantity.ts";

const STEP = 250;

/**
 * Engine speeds at which things are tabulated.
 *
 *     from, from + 250, …, to
 *
 * @param from  lowest speed [rpm], 0 or greater
 * @param to    highest speed [rpm], not below `from`
 * @returns     speeds in steps of 250, both ends included; a single one where they are equal, none where they are crossed
 * @source      common practice
 * @example     speedGrid(rpm(2500), rpm(3100)) // [2500, 2750, 3000, 3100]
 */
export function speedGrid(from: Rpm, to: Rpm): Rpm[] {
  if (!(to >= from)) return [];
  const whole = Math.floor((to - from) / STEP);
  const grid = Array.from({ length: whole + 1 }, (_, k) => rpm(from + k * STEP));
  return grid[whole]! < to ? [...grid, to] : grid;
}
