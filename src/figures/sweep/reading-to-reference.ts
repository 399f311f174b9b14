import type { Air, Bench, Side } from "../../model/model.ts";
import { type CubicMetresPerSecond, cubicMetresPerSecond, type Pascals } from "../../units/quantity.ts";
import { humidAirDensity } from "../air/humid-air-density.ts";

/** Test pressure and air at which everything is reported. */
export type Reference = { readonly testPressure: Pascals; readonly air: Air };

/**
 * Leakage of bench, plate and clay at the pressure of a reading, from the pressure at which it was measured.
 *
 *     leak = leak₀ · √(ΔP ÷ ΔP₀)
 *
 * @param bench     the bench, with its leakage per side [m³/s] and the test pressure ΔP₀ of it [Pa]
 * @param side      intake or exhaust
 * @param pressure  test pressure ΔP of the reading [Pa], 0 or greater
 * @returns         leak [m³/s]; 0 when none is stated
 * @source          square-root rule, common practice
 * @example         leakageAt({ leakage: { intake: 0.001, testPressure: 2500 } }, "intake", pascals(10000)) // 0.002
 */
export function leakageAt(bench: Bench, side: Side, pressure: Pascals): CubicMetresPerSecond {
  const leakage = bench.leakage?.[side];
  if (bench.leakage === undefined || leakage === undefined) return cubicMetresPerSecond(0);
  return cubicMetresPerSecond(leakage * Math.sqrt(pressure / bench.leakage.testPressure));
}

/**
 * Factor that carries a flow, net of leakage, to the reference test pressure and air.
 *
 *     √(ΔP_ref ÷ ΔP_test), × √(ρ_test ÷ ρ_ref) for a volumetric meter, × √(ρ_ref ÷ ρ_test) for a mass meter that shows
 *     volume at reference density; nothing more for an orifice in the same stream as the head, which cancels density
 *
 * @param bench      the bench, with its meter and its air
 * @param pressure   test pressure ΔP_test of the reading [Pa], greater than 0
 * @param reference  reference test pressure and air
 * @returns          factor [1]; 1 for a reading taken at reference conditions, and no density term when the air is not stated
 * @source           square-root rule, common practice; density terms from Q ∝ √(ΔP ÷ ρ)
 * @example          referenceFactor({ meter: "orifice" }, pascals(2490.8891), { testPressure: 6974.48948 }) // 1.67332
 */
export function referenceFactor(bench: Bench, pressure: Pascals, reference: Reference): number {
  const root = Math.sqrt(reference.testPressure / pressure);
  if (bench.meter === "orifice" || bench.air === undefined) return root;
  const test = humidAirDensity(bench.air.temperature, bench.air.pressure, bench.air.relativeHumidity);
  const { temperature, pressure: ambient, relativeHumidity } = reference.air;
  const density = Math.sqrt(test / humidAirDensity(temperature, ambient, relativeHumidity));
  return bench.meter === "volumetric" ? root * density : root / density;
}

/**
 * A reading at reference conditions: less the leakage, then carried to the reference.
 *
 *     Q_ref = (Q − leak) · factor
 *
 * @param flow       as read Q [m³/s]
 * @param bench      the bench of that run
 * @param side       intake or exhaust
 * @param pressure   test pressure of the reading [Pa], greater than 0
 * @param reference  reference test pressure and air
 * @returns          Q_ref [m³/s]; below 0 when the leakage is larger than the reading
 * @source           order of corrections: common practice
 * @example          readingToReference(0.101, { meter: "orifice", leakage: { intake: 0.001, testPressure: 2500 } }, "intake", 2500, { testPressure: 10000 }) // 0.2
 */
export function readingToReference(
  flow: CubicMetresPerSecond,
  bench: Bench,
  side: Side,
  pressure: Pascals,
  reference: Reference,
): CubicMetresPerSecond {
  return cubicMetresPerSecond((flow - leakageAt(bench, side, pressure)) * referenceFactor(bench, pressure, reference));
}
