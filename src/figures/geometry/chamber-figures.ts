import type { Engine, Stage } from "../../model/model.ts";
import { type CubicMetres, cubicMetres, type Ratio, ratio } from "../../units/quantity.ts";
import type { StageFigures } from "../figures.ts";
import { circleArea } from "./valve-areas.ts";

/**
 * Chambers of a stage: mean, smallest, largest and how many, with the compression ratio of each where the customer stated
 * what it needs. The largest chamber gives the lowest ratio.
 *
 *     r = (V_s + V_c) ÷ V_c for the mean, the largest and the smallest chamber
 *
 * @param stage   the stage with its chambers [m³]
 * @param engine  the engine, if stated
 * @returns       the figures; empty without chambers
 * @source        Heywood, Internal Combustion Engine Fundamentals (1988), §2.2
 * @example       chamberFigures({ chambers: [{ volume: 4e-5 }, { volume: 5e-5 }] }, undefined) // { chambers: { mean_m3: 4.5e-5, low_m3: 4e-5, high_m3: 5e-5, n: 2 } }
 */
export function chamberFigures(
  stage: Stage,
  engine: Engine | undefined,
): Pick<StageFigures, "chambers" | "compression_ratio" | "compression_ratio_low" | "compression_ratio_high"> {
  const volumes = stage.chambers.map((chamber) => chamber.volume as number);
  if (volumes.length === 0) return {};
  const mean = volumes.reduce((sum, volume) => sum + volume, 0) / volumes.length;
  const low = Math.min(...volumes);
  const high = Math.max(...volumes);
  const ratioOf = (volume: number) =>
    engine === undefined ? undefined : compressionRatio(engine, cubicMetres(volume));
  const [ratio, lowest, highest] = [ratioOf(mean), ratioOf(high), ratioOf(low)];
  return {
    chambers: { mean_m3: mean, low_m3: low, high_m3: high, n: volumes.length },
    ...(ratio === undefined ? {} : { compression_ratio: ratio }),
    ...(lowest === undefined ? {} : { compression_ratio_low: lowest }),
    ...(highest === undefined ? {} : { compression_ratio_high: highest }),
  };
}

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
