import { fromSi } from "../../units/convert.ts";
import type { DeclaredUnits } from "../schema/quantities.ts";

/** A length for a message, in the unit that the job is typed in. */
export function showLength(value: number, units: DeclaredUnits): string {
  const unit = units.length ?? "mm";
  const decimals = unit === "in" || unit === "cm" ? 3 : unit === "thou" ? 0 : 2;
  return `${fromSi(value, "length", unit).toFixed(decimals)} ${unit}`;
}
