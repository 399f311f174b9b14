import {
  type Metres,
  type MetresPerSecond,
  metres,
  metresPerSecond,
  type Radians,
  type Rpm,
} from "../../units/quantity.ts";

/**
 * Mean piston speed.
 *
 *     S_p = 2 · stroke · N
 *
 * @param stroke  stroke [m], greater than 0
 * @param speed   engine speed N [rpm], 0 or greater
 * @returns       S_p [m/s]; 0 at rest
 * @source        Heywood, Internal Combustion Engine Fundamentals (1988), §2.2
 * @example       meanPistonSpeed(metres(0.086), rpm(6000)) // 17.2
 */
export function meanPistonSpeed(stroke: Metres, speed: Rpm): MetresPerSecond {
  return metresPerSecond((2 * stroke * speed) / 60);
}

/**
 * Travel of the piston from top dead centre, by the exact slider–crank.
 *
 *     x = l + a − a cos θ − √(l² − a² sin² θ),  a = stroke ÷ 2
 *
 * @param stroke  stroke [m], greater than 0
 * @param rod     rod length l, centre to centre [m], greater than a
 * @param angle   crank angle θ after top dead centre [rad]
 * @returns       x [m]; 0 at top dead centre, the stroke at the bottom
 * @source        Heywood, Internal Combustion Engine Fundamentals (1988), §2.2
 * @example       pistonTravel(metres(0.086), metres(0.1435), radians(Math.PI / 2)) // 0.049594
 */
export function pistonTravel(stroke: Metres, rod: Metres, angle: Radians): Metres {
  const a = stroke / 2;
  return metres(rod + a - a * Math.cos(angle) - Math.sqrt(rod * rod - (a * Math.sin(angle)) ** 2));
}

/**
 * Highest speed that the piston reaches within a turn, by the exact slider–crank.
 *
 *     v = ω a (sin θ + a sin θ cos θ ÷ √(l² − a² sin² θ)), at the θ where it is highest
 *
 * @param stroke  stroke [m], greater than 0; a is half of it
 * @param rod     rod length l, centre to centre [m], greater than a
 * @param speed   engine speed [rpm], 0 or greater; ω = 2π ÷ 60 of it
 * @returns       v [m/s]; 0 at rest
 * @throws        RangeError for a rod that is not longer than the crank: such an engine cannot turn
 * @source        Heywood, Internal Combustion Engine Fundamentals (1988), §2.2
 * @example       highestPistonSpeed(metres(0.086), metres(0.1435), rpm(6000)) // 28.21269
 */
export function highestPistonSpeed(stroke: Metres, rod: Metres, speed: Rpm): MetresPerSecond {
  const a = stroke / 2;
  if (!(rod > a)) throw new RangeError(`rod must be longer than the crank: ${rod}`);
  const perTurn = (angle: number) => {
    const sine = Math.sin(angle);
    return a * sine * (1 + (a * Math.cos(angle)) / Math.sqrt(rod * rod - (a * sine) ** 2));
  };
  // One hump between top and bottom dead centre: narrow it by thirds.
  let low = 0;
  let high = Math.PI;
  for (let k = 0; k < 100; k++) {
    const left = low + (high - low) / 3;
    const right = high - (high - low) / 3;
    if (perTurn(left) < perTurn(right)) low = left;
    else high = right;
  }
  return metresPerSecond(((2 * Math.PI * speed) / 60) * perTurn((low + high) / 2));
}
