import {
  type Metres,
  type MetresPerSecond,
  metresPerSecond,
  type Rpm,
  rpm as revolutions,
  type SquareMetres,
} from "../../units/quantity.ts";
import { circleArea } from "../geometry/valve-areas.ts";
import { highestPistonSpeed } from "./piston-speed.ts";

/**
 * Highest gas speed at the pinch caused by the piston: air taken as incompressible.
 *
 *     v = (π bore² ÷ 4) · highest piston speed ÷ (pinch · ports)
 *
 * @param bore    bore [m], greater than 0
 * @param stroke  stroke [m], greater than 0
 * @param rod     rod length [m], greater than half the stroke
 * @param pinch   smallest section of all ports that feed the cylinder [m²], greater than 0
 * @param speed   engine speed [rpm], 0 or greater
 * @returns       v [m/s]; 0 at rest
 * @source        continuity with the exact slider–crank of Heywood (1988) §2.2; common practice writes bore² × stroke × rpm × 0.00353 ÷ area
 * @example       pinchSpeed(metres(0.1), metres(0.08), metres(0.15), squareMetres(0.0014), rpm(6000)) // 145.943
 */
export function pinchSpeed(
  bore: Metres,
  stroke: Metres,
  rod: Metres,
  pinch: SquareMetres,
  speed: Rpm,
): MetresPerSecond {
  return metresPerSecond((circleArea(bore) * highestPistonSpeed(stroke, rod, speed)) / pinch);
}

/**
 * Engine speed at which the gas at the pinch reaches a given speed. It is no mechanical limit of the engine.
 *
 *     N = v ÷ (gas speed at one revolution a minute)
 *
 * @param bore    bore [m], greater than 0
 * @param stroke  stroke [m], greater than 0
 * @param rod     rod length [m], greater than half the stroke
 * @param pinch   smallest section of all ports that feed the cylinder [m²], greater than 0
 * @param limit   gas speed v [m/s], 0 or greater
 * @returns       N [rpm]; 0 for a limit of 0
 * @example       pinchLimitRpm(metres(0.1), metres(0.08), metres(0.15), squareMetres(0.0014), metresPerSecond(145.9431)) // 6000
 */
export function pinchLimitRpm(
  bore: Metres,
  stroke: Metres,
  rod: Metres,
  pinch: SquareMetres,
  limit: MetresPerSecond,
): Rpm {
  return revolutions(limit / pinchSpeed(bore, stroke, rod, pinch, revolutions(1)));
}
