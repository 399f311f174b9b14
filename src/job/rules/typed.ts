import { type Path, type SourceDocument, valueAt } from "../../parse/yaml/source-document.ts";
import { appendUnit } from "../../units/append-unit.ts";
import { fromSi } from "../../units/convert.ts";
import { mistypings } from "../../units/mistypings.ts";
import { parseQuantity } from "../../units/parse-quantity.ts";
import { namedUnit, unitsOf } from "../../units/table.ts";
import type { DeclaredUnits } from "../schema/quantities.ts";

type SizeKind = "length" | "volume" | "pressure";

/** A size as it was typed, with the unit that a bare number took; where it is inherited, its value in that unit. */
export function typedSize(
  path: Path,
  value: number,
  kind: SizeKind,
  { located, units }: { readonly located: SourceDocument; readonly units: DeclaredUnits },
): string {
  const typed = valueAt(located.value, path);
  const bare = units[kind];
  if (typeof typed === "string") return appendUnit(typed.trim(), kind, bare);
  const unit = namedUnit(kind, bare ?? unitsOf(kind)[0]!.name);
  return `${fromSi(value, kind, unit.name).toFixed(unit.decimals)} ${unit.symbol}`;
}

/** Whether one of these keys is typed: it may have been refused, and must not be called missing as well. */
export const isTyped = (located: SourceDocument, path: Path, ...keys: readonly string[]): boolean =>
  keys.some((key) => valueAt(located.value, [...path, key]) !== undefined);

/** A hint with the size that was probably meant: one slip of the hand away from what was typed, and between two limits [SI]. */
export function meantSize(
  path: Path,
  kind: SizeKind,
  [low, high]: readonly [low: number, high: number],
  { located, units }: { readonly located: SourceDocument; readonly units: DeclaredUnits },
): string | undefined {
  const typed = valueAt(located.value, path);
  const [, digits = "", rest = ""] = typeof typed === "string" ? (/^([\d.]+)(.*)$/.exec(typed.trim()) ?? []) : [];
  const meant = mistypings(digits).find((one) => {
    const read = parseQuantity(one + rest, kind, units[kind]);
    return read.ok && read.value >= low && read.value <= high;
  });
  return meant === undefined ? undefined : `did you mean ${meant}${rest || (units[kind] ? ` ${units[kind]}` : "")}?`;
}
