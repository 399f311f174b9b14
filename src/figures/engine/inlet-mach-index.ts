import {
  type Metres,
  type MetresPerSecond,
  type Ratio,
  type Rpm,
  ratio,
  rpm as revolutions,
  type SquareMetres,
} from "../../units/quantity.ts";
import { circleArea } from "../geometry/valve-areas.ts";
import { meanPistonSpeed } from "./piston-speed.ts";

/**
 * Inlet Mach index: mean gas speed through the mean effective valve area, as a share of the speed of sound.
 *
 *     Z = (π bore² ÷ 4) · S_p ÷ (A_eff · a)
 *
 * @param bore           bore [m], greater than 0
 * @param stroke         stroke [m], greater than 0
 * @param speed          engine speed [rpm], 0 or greater
 * @param effectiveArea  mean effective inlet area A_eff of all ports that feed the cylinder [m²], greater than 0
 * @param sound          speed of sound a [m/s], greater than 0
 * @returns              Z [1]; 0 at rest
 * @source               Taylor, The Internal-Combustion Engine in Theory and Practice, vol. 1, ch. 6; Livengood & Stanitz, NACA TN 915 (1943)
 * @example              inletMachIndex(metres(0.086), metres(0.086), rpm(6000), squareMetres(2 * 0.35 * Math.PI / 4 * 0.033 ** 2), metresPerSecond(346.1467)) // 0.482102
 */
export function inletMachIndex(
  bore: Metres,
  stroke: Metres,
  speed: Rpm,
  effectiveArea: SquareMetres,
  sound: MetresPerSecond,
): Ratio {
  return ratio((circleArea(bore) * meanPistonSpeed(stroke, speed)) / (effectiveArea * sound));
}

/**
 * Engine speed at which the inlet Mach index reaches a given value.
 *
 *     N = Z ÷ (Z at one revolution a minute)
 *
 * @param bore           bore [m], greater than 0
 * @param stroke         stroke [m], greater than 0
 * @param limit          Z [1], 0 or greater
 * @param effectiveArea  A_eff of all ports that feed the cylinder [m²], greater than 0
 * @param sound          speed of sound a [m/s], greater than 0
 * @returns              N [rpm]
 * @example              machIndexRpm(metres(0.086), metres(0.086), 0.6, squareMetres(2 * 0.35 * Math.PI / 4 * 0.033 ** 2), metresPerSecond(346.1467)) // 7467.29
 */
export function machIndexRpm(
  bore: Metres,
  stroke: Metres,
  limit: number,
  effectiveArea: SquareMetres,
  sound: MetresPerSecond,
): Rpm {
  return revolutions(limit / inletMachIndex(bore, stroke, revolutions(1), effectiveArea, sound));
}
