import { type Watts, type WattsPerFlow, watts } from "../../units/quantity.ts";

/**
 * Air for at most about so much power: an upper estimate from a rule of thumb, never a promise.
 *
 *     P = c · Q₂₈ · ports · cylinders
 *
 * @param powerPerFlow  c, power per flow at 28 inH2O [W/(m³/s)], as the shop states it
 * @param flow          peak intake flow of one port at 28 inH2O Q₂₈ [m³/s], 0 or greater
 * @param ports         intake ports that feed one cylinder
 * @param cylinders     cylinders of the engine
 * @returns             P [W]; 0 without flow
 * @source              common practice, quoted at 28 inH2O
 * @example             supportedPower(4e5, 0.1, 1, 4) // 160000
 */
export function supportedPower(powerPerFlow: WattsPerFlow, flow: number, ports: number, cylinders: number): Watts {
  return watts(powerPerFlow * flow * ports * cylinders);
}
