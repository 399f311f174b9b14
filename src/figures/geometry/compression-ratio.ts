import type { Engine } from "../../model/model.ts";
import { type CubicMetres, cubicMetres, type Ratio, ratio } from "../../units/quantity.ts";
import { circleArea } from "./circle-area.ts";

/**
 * Compression ratio with a chamber measured by the shop and the parts stated by the customer. Nothing is guessed: bore,
 * stroke, gasket, dish (or dome) and deck height must all be stated; a flat piston states a dish of 0.
 *
 *     r = (V_s + V_c) ÷ V_c,  V_s = (π ÷ 4) bore² · stroke,  V_c = chamber + gasket + deck + piston
 *
 * @param engine   bore, stroke [m], gasket (volume, or bore and compressed thickness), piston: dish [m³] and depth below the deck [m]
 * @param chamber  chamber volume [m³], greater than 0
 * @returns        r [1], or undefined when a part is not stated or the clearance is not positive
 * @source         Heywood, Internal Combustion Engine Fundamentals (1988), §2.2
 * @example        compressionRatio({ bore: 0.086, stroke: 0.086, gasket: { kind: "ring", bore: 0.087, compressed: 0.001 }, piston: { dish: -2e-6, belowDeck: 0.0002 } }, cubicMetres(48e-6)) // 10.40672
 */
export function compressionRatio(engine: Engine, chamber: CubicMetres): Ratio | undefined {
  const { bore, stroke, gasket, piston } = engine;
  if (bore === undefined || stroke === undefined || gasket === undefined) return undefined;
  if (piston?.dish === undefined || piston.belowDeck === undefined) return undefined;
  const ring = gasket.kind === "volume" ? gasket.volume : cubicMetres(circleArea(gasket.bore) * gasket.compressed);
  const clearance = chamber + ring + circleArea(bore) * piston.belowDeck + piston.dish;
  return clearance > 0 ? ratio((circleArea(bore) * stroke + clearance) / clearance) : undefined;
}
