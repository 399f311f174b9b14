import type { Air, Side } from "../../model/model.ts";
import { type MetresPerSecond, metresPerSecond, type Pascals, pascals } from "../../units/quantity.ts";
import { humidAirDensity } from "./humid-air-density.ts";
import { isentropicMassFlux } from "./isentropic-mass-flux.ts";

/**
 * Flow at reference density that an ideal opening passes per area: an intake draws from ambient air to a depression, an
 * exhaust blows from a raised pressure into ambient air.
 *
 *     intake: G(p, p − ΔP, T) ÷ ρ    exhaust: G(p + ΔP, p, T) ÷ ρ
 *
 * @param side          intake or exhaust
 * @param testPressure  ΔP [Pa], 0 to the pressure of the air
 * @param air           reference air: T [K], p [Pa], relative humidity [1]
 * @returns             flow per area [m/s]; 0 at zero ΔP
 * @source              Heywood, Internal Combustion Engine Fundamentals (1988), app. C
 * @example             idealFlowPerArea("intake", pascals(6974.489), { temperature: 293.15, pressure: 101325, relativeHumidity: 0 }) // 103.55
 */
export function idealFlowPerArea(side: Side, testPressure: Pascals, air: Air): MetresPerSecond {
  const { temperature, pressure, relativeHumidity } = air;
  const flux =
    side === "intake"
      ? isentropicMassFlux(pressure, pascals(Math.max(0, pressure - testPressure)), temperature)
      : isentropicMassFlux(pascals(pressure + testPressure), pressure, temperature);
  return metresPerSecond(flux / humidAirDensity(temperature, pressure, relativeHumidity));
}

/**
 * How far the square-root rule is off when it carries a reading from one test pressure to another.
 *
 *     e = | √(ΔP_ref ÷ ΔP_test) ÷ (ideal flow at ΔP_ref ÷ ideal flow at ΔP_test) − 1 |
 *
 * @param side  intake or exhaust
 * @param from  test pressure ΔP_test [Pa], greater than 0
 * @param to    reference test pressure ΔP_ref [Pa], greater than 0
 * @param air   reference air
 * @returns     e [1], taken as a rectangular half-width; 0 at equal pressures
 * @source      Heywood, Internal Combustion Engine Fundamentals (1988), app. C; the rule itself is common practice
 * @example     conversionError("intake", pascals(2490.889), pascals(6974.489), { temperature: 293.15, pressure: 101325, relativeHumidity: 0 }) // 0.025271
 */
export function conversionError(side: Side, from: Pascals, to: Pascals, air: Air): number {
  const isentropic = idealFlowPerArea(side, to, air) / idealFlowPerArea(side, from, air);
  return Math.abs(Math.sqrt(to / from) / isentropic - 1);
}
