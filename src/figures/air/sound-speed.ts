import { type Kelvin, type MetresPerSecond, metresPerSecond, type Speed } from "../../units/quantity.ts";
import { GAS_CONSTANT, HEAT_RATIO } from "../constants.ts";

/**
 * Speed of sound in air.
 *
 *     a = √(γ R T)
 *
 * @param temperature  T [K], 0 or greater
 * @returns            a [m/s]; 0 at absolute zero
 * @source             Heywood, Internal Combustion Engine Fundamentals (1988), app. C
 * @example            soundSpeed(kelvin(288.15)) // 340.29
 */
export function soundSpeed(temperature: Kelvin): MetresPerSecond {
  return metresPerSecond(Math.sqrt(HEAT_RATIO * GAS_CONSTANT * temperature));
}

/**
 * A gas speed in metres a second, however it was stated.
 *
 *     v = v, or v = M · a
 *
 * @param speed  outright [m/s], or as a share M of the speed of sound [1]
 * @param sound  speed of sound a [m/s]
 * @returns      v [m/s]
 * @source       definition of the Mach number
 * @example      gasSpeed({ kind: "mach", value: 0.5 }, metresPerSecond(340)) // 170
 */
export function gasSpeed(speed: Speed, sound: MetresPerSecond): MetresPerSecond {
  return speed.kind === "mach" ? metresPerSecond(speed.value * sound) : speed.value;
}
