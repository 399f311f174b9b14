import type { KeyNode, KeyTree } from "../job/schema/keys.ts";
import { type DeclaredUnits, NOT_MEASURED, type TypedQuantity } from "../job/schema/quantities.ts";
import type { YamlValue } from "../parse/yaml/source-document.ts";
import type { Withheld } from "../sheet/withheld.ts";
import type { Speed } from "../units/quantity.ts";
import { formatExactQuantity, formatTypedQuantity } from "./exact-quantity.ts";
import { formatProfile, formatSections, formatValveTrain } from "./plain-tables.ts";

const TABLE_FORMATS = { sections: formatSections, profile: formatProfile, valveTrain: formatValveTrain };

/**
 * Filters a parsed value for export: text unchanged, numbers with their unit, maps reduced to exported keys; undefined when
 * nothing remains.
 */
export function exportedPart(
  value: unknown,
  tree: KeyTree,
  withheld: Withheld,
  units: DeclaredUnits,
): YamlValue | undefined {
  const { text, number, kind, table, keys, record } = tree;
  if (value === undefined || value === null) return undefined;
  if (Array.isArray(value)) {
    if (table) return TABLE_FORMATS[table](value, units);
    const items = value.map((item) => exportedPart(item, tree, withheld, units)).filter((item) => item !== undefined);
    return items.length > 0 ? items : undefined;
  }
  if (typeof value === "string") return text || value === NOT_MEASURED ? value : undefined;
  if (typeof value === "boolean") return text ? String(value) : undefined;
  if (typeof value === "number")
    return kind ? formatExactQuantity(value, kind, units[kind]) : number ? String(value) : undefined;
  if (kind === "speed") return formatExactQuantity(value as Speed, kind, units.speed);
  if (kind && typeof value === "object" && "resolution" in value)
    return formatTypedQuantity(value as TypedQuantity<"flow">, kind, units[kind]);
  const entries = Object.entries(value).flatMap(([key, item]) => {
    const own = keys.get(key) ?? record;
    const part =
      own && (own === record || isExported(own, withheld)) ? exportedPart(item, own, withheld, units) : undefined;
    return part === undefined ? [] : [[key, part] as const];
  });
  return entries.length > 0 ? Object.fromEntries(entries) : undefined;
}

const isExported = (key: KeyNode, withheld: Withheld): boolean =>
  key.exported === true ||
  (typeof key.exported === "string" && key.exported !== "rewritten" && !isKeyWithheld(key, withheld));

/** Whether the shop withholds a key that would else travel inside a sheet. */
export const isKeyWithheld = ({ exported }: Pick<KeyNode, "exported">, withheld: Withheld): boolean =>
  typeof exported === "string" && exported !== "rewritten" && withheld[exported];
