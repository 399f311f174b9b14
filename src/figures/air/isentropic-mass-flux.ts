import { type Kelvin, type Pascals, type Ratio, ratio } from "../../units/quantity.ts";
import { GAS_CONSTANT, HEAT_RATIO } from "../constants.ts";

/**
 * Pressure ratio below which a nozzle is choked.
 *
 *     r* = (2 ÷ (γ + 1))^(γ ÷ (γ − 1))
 *
 * @param gamma  ratio of specific heats γ [1], greater than 1
 * @returns      r* [1], downstream ÷ upstream
 * @source       Heywood, Internal Combustion Engine Fundamentals (1988), app. C
 * @example      criticalPressureRatio(1.4) // 0.52828
 */
export function criticalPressureRatio(gamma: number = HEAT_RATIO): Ratio {
  return ratio((2 / (gamma + 1)) ** (gamma / (gamma - 1)));
}

/**
 * Flow function of an isentropic nozzle: its mass flux without dimension.
 *
 *     ψ = √( 2γ ÷ (γ − 1) · (r^(2/γ) − r^((γ+1)/γ)) ), with r clamped to r* below it
 *
 * @param pressureRatio  downstream ÷ upstream pressure r [1], 0 to 1
 * @param gamma          ratio of specific heats γ [1], greater than 1
 * @returns              ψ [1]; 0 at r = 1, constant once choked
 * @source               Heywood, Internal Combustion Engine Fundamentals (1988), app. C, eqs C.8–C.9
 * @example              flowFunction(0.8) // 0.56066
 */
export function flowFunction(pressureRatio: number, gamma: number = HEAT_RATIO): Ratio {
  const r = Math.max(pressureRatio, criticalPressureRatio(gamma));
  return ratio(Math.sqrt(((2 * gamma) / (gamma - 1)) * (r ** (2 / gamma) - r ** ((gamma + 1) / gamma))));
}

/**
 * Mass that ideal air carries through each square metre, from rest upstream to the downstream pressure.
 *
 *     G = p₀ ψ(p ÷ p₀) ÷ √(R T₀)
 *
 * @param upstream     stagnation pressure p₀ [Pa], greater than 0
 * @param downstream   pressure p [Pa], 0 to p₀
 * @param temperature  stagnation temperature T₀ [K], greater than 0
 * @returns            G [kg/(s m²)]; 0 without a pressure drop
 * @source             Heywood, Internal Combustion Engine Fundamentals (1988), app. C, eqs C.8–C.9
 * @example            isentropicMassFlux(pascals(101325), pascals(94350.51072), kelvin(288.15)) // 125.8076
 */
export function isentropicMassFlux(upstream: Pascals, downstream: Pascals, temperature: Kelvin): number {
  return (upstream * flowFunction(downstream / upstream)) / Math.sqrt(GAS_CONSTANT * temperature);
}
