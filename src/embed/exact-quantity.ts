import { fromSi, toSi } from "../units/convert.ts";
import type { Speed } from "../units/quantity.ts";
import { type Kind, unitsOf } from "../units/table.ts";

/**
 * An SI value as a porter would have typed it: the fewest digits that are read back as the very same number, in the unit
 * declared where that takes no more digits than another of its kind.
 */
export function exactQuantity(value: number | Speed, kind: Kind, declared?: string): string {
  if (typeof value === "object")
    return value.kind === "mach" ? `${digits(value.value)} Mach` : exactQuantity(value.value, kind, declared);
  const names = unitsOf(kind).map(({ name }) => name);
  const order = declared === undefined ? names : [declared, ...names.filter((name) => name !== declared)];
  for (let precision = 1; precision <= 15; precision++) {
    for (const unit of order) {
      const rounded = Number(fromSi(value, kind, unit).toPrecision(precision));
      if (toSi(rounded, kind, unit) === value) return withUnit(digits(rounded), unit);
    }
  }
  return withUnit(digits(fromSi(value, kind, order[0]!)), order[0]!);
}

const withUnit = (number: string, unit: string) => (unit === "plain" ? number : `${number} ${unit}`);

/** A number without an exponent, which no porter writes. */
const digits = (value: number): string => {
  const plain = String(value);
  return plain.includes("e") ? value.toFixed(20).replace(/\.?0+$/, "") : plain;
};
