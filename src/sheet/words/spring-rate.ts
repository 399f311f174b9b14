import { fromSi } from "../../units/convert.ts";
import { defaultDecimals, formatNumber } from "../../units/show.ts";

/** A rate per length of the force's own system. */
export const springRateUnit = (force: string): string => ({ lbf: "lbf/in", kgf: "kgf/mm" })[force] ?? "N/mm";

export function springRateDigits(force: string, rate: number): string {
  const unit = springRateUnit(force);
  return formatNumber(fromSi(rate, "springRate", unit), defaultDecimals("springRate", unit));
}
