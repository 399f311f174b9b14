import {
  type Kelvin,
  type KilogramsPerCubicMetre,
  kilogramsPerCubicMetre,
  type Pascals,
  type Ratio,
} from "../../units/quantity.ts";

const DRY_AIR = 28.96546e-3; // kg/mol, at 400 ppm of carbon dioxide
const WATER = 18.01528e-3; // kg/mol
const MOLAR_GAS = 8.314472; // J/(mol K), the value that the formula was published with

/**
 * Density of humid air, by the formula of the metrologists.
 *
 *     ρ = p M_a ÷ (Z R T) · (1 − x_v (1 − M_v ÷ M_a)),  x_v = h f p_sv ÷ p
 *
 * with the saturation pressure p_sv, enhancement factor f and compressibility Z of the source. Published for 600–1100 hPa
 * and 15–27 °C with 22 parts in a million; used outside of it too, where its error stays far below that of a bench.
 *
 * @param temperature       T [K], greater than 0
 * @param pressure          p [Pa], greater than 0
 * @param relativeHumidity  h [1], 0 to 1
 * @returns                 ρ [kg/m³]
 * @source                  Picard, Davis, Gläser, Fujii, Revised formula for the density of moist air (CIPM-2007), Metrologia 45 (2008), eq. 1 and app. A1
 * @example                 humidAirDensity(kelvin(293.15), pascals(101325), ratio(0.5)) // 1.199314
 */
export function humidAirDensity(
  temperature: Kelvin,
  pressure: Pascals,
  relativeHumidity: Ratio,
): KilogramsPerCubicMetre {
  const T: number = temperature;
  const t = T - 273.15;
  const saturation = Math.exp(1.2378847e-5 * T * T - 1.9121316e-2 * T + 33.93711047 - 6.3431645e3 / T);
  const enhancement = 1.00062 + 3.14e-8 * pressure + 5.6e-7 * t * t;
  const x = (relativeHumidity * enhancement * saturation) / pressure;
  const first =
    1.58123e-6 -
    2.9331e-8 * t +
    1.1043e-10 * t * t +
    (5.707e-6 - 2.051e-8 * t) * x +
    (1.9898e-4 - 2.376e-6 * t) * x * x;
  const second = 1.83e-11 - 0.765e-8 * x * x;
  const compressibility = 1 - (pressure / T) * first + (pressure / T) ** 2 * second;
  const dry = (pressure * DRY_AIR) / (compressibility * MOLAR_GAS * T);
  return kilogramsPerCubicMetre(dry * (1 - x * (1 - WATER / DRY_AIR)));
}
