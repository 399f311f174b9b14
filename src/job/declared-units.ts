import type { YamlValue } from "../parse/yaml/source-document.ts";
import { findUnit, type Kind, nearestUnit, type Unit, unitsOf } from "../units/table.ts";
import type { DeclaredUnits } from "./schema/quantities.ts";
import { DECLARABLE } from "./schema/units.ts";

/**
 * The units a file declares, over those of the shop. Read ahead of everything else, since bare numbers depend on them;
 * a unit that does not exist is refused by the schema, and stood in for here lest every bare number complain too.
 */
export function declaredUnits(value: YamlValue, shop: DeclaredUnits = {}): DeclaredUnits {
  const typed = typeof value === "object" && "units" in value ? value.units : undefined;
  if (typeof typed !== "object") return shop;
  const declared: { [kind in Kind]?: string } = { ...shop };
  for (const kind of DECLARABLE) {
    const text = (typed as { readonly [key: string]: YamlValue })[kind];
    if (typeof text === "string") declared[kind] = meant(kind, text);
  }
  return declared;
}

const meant = (kind: Kind, typed: string): string =>
  findUnit(kind, typed)?.name ?? nearestUnit(kind, typed) ?? (unitsOf(kind)[0] as Unit).name;
