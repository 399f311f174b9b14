import type { Engine, Stage } from "../../model/model.ts";
import { cubicMetres } from "../../units/quantity.ts";
import type { StageFigures } from "../figures.ts";
import { compressionRatio } from "./compression-ratio.ts";

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
