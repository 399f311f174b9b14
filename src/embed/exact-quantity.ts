import type { TypedQuantity } from "../job/schema/quantities.ts";
import { fromSi, toSi } from "../units/convert.ts";
import type { Speed } from "../units/quantity.ts";
import { type Kind, unitsOf } from "../units/table.ts";

/**
 * Formats an SI value with the fewest digits that parse back to the same number, in the declared unit unless another unit of
 * its kind needs fewer digits.
 */
export function formatExactQuantity(value: number | Speed, kind: Kind, declared?: string): string {
  if (typeof value === "object")
    return value.kind === "mach"
      ? `${formatDecimal(value.value)} Mach`
      : formatExactQuantity(value.value, kind, declared);
  const names = unitsOf(kind).map(({ name }) => name);
  const order = declared === undefined ? names : [declared, ...names.filter((name) => name !== declared)];
  for (let precision = 1; precision <= 15; precision++) {
    for (const unit of order) {
      const rounded = Number(fromSi(value, kind, unit).toPrecision(precision));
      if (toSi(rounded, kind, unit) === value) return appendUnitName(formatDecimal(rounded), unit);
    }
  }
  return appendUnitName(formatDecimal(fromSi(value, kind, order[0]!)), order[0]!);
}

/** Formats a quantity with the digits with which it was typed: the last of them tells how finely it was read. */
export function formatTypedQuantity(
  { value, resolution }: TypedQuantity<"flow">,
  kind: Kind,
  declared?: string,
): string {
  const names = unitsOf(kind).map(({ name }) => name);
  for (const unit of declared === undefined ? names : [declared, ...names]) {
    const digits = Math.round(-Math.log10(fromSi(resolution, kind, unit)));
    if (digits < 0 || digits > 15) continue;
    const text = fromSi(value, kind, unit).toFixed(digits);
    const isDigit = Math.abs(toSi(10 ** -digits, kind, unit) / resolution - 1) < 1e-9;
    if (isDigit && toSi(Number(text), kind, unit) === value) return appendUnitName(text, unit);
  }
  return formatExactQuantity(value, kind, declared);
}

const appendUnitName = (number: string, unit: string) => (unit === "plain" ? number : `${number} ${unit}`);

/** A number without an exponent, which no porter writes. */
const formatDecimal = (value: number): string => {
  const plain = String(value);
  return plain.includes("e") ? value.toFixed(20).replace(/\.?0+$/, "") : plain;
};
