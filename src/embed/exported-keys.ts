import type { KeyNode, KeyTree } from "../job/schema/keys.ts";
import { type DeclaredUnits, NOT_MEASURED } from "../job/schema/quantities.ts";
import type { YamlValue } from "../parse/yaml/source-document.ts";
import type { Withheld } from "../sheet/withheld.ts";
import type { Speed } from "../units/quantity.ts";
import { exactQuantity } from "./exact-quantity.ts";
import { profileText, sectionsText } from "./plain-tables.ts";

const TABLES = { sections: sectionsText, profile: profileText };

/**
 * What may leave the shop of a value that was read: text as it is, numbers with their unit, maps by their exported keys and
 * no others; undefined when nothing is left.
 */
export function exportedPart(
  value: unknown,
  tree: KeyTree,
  held: Withheld,
  units: DeclaredUnits,
): YamlValue | undefined {
  const { text, number, kind, table, keys, record } = tree;
  if (value === undefined || value === null) return undefined;
  if (Array.isArray(value)) {
    if (table) return TABLES[table](value, units);
    const items = value.map((item) => exportedPart(item, tree, held, units)).filter((item) => item !== undefined);
    return items.length > 0 ? items : undefined;
  }
  if (typeof value === "string") return text || value === NOT_MEASURED ? value : undefined;
  if (typeof value === "boolean") return text ? String(value) : undefined;
  if (typeof value === "number")
    return kind ? exactQuantity(value, kind, units[kind]) : number ? String(value) : undefined;
  if (kind === "speed") return exactQuantity(value as Speed, kind, units.speed);
  const entries = Object.entries(value).flatMap(([key, item]) => {
    const own = keys.get(key) ?? record;
    const part = own && (own === record || isExported(own, held)) ? exportedPart(item, own, held, units) : undefined;
    return part === undefined ? [] : [[key, part] as const];
  });
  return entries.length > 0 ? Object.fromEntries(entries) : undefined;
}

const isExported = ({ exported }: KeyNode, held: Withheld): boolean =>
  exported === true || (typeof exported === "string" && exported !== "rewritten" && !held[exported]);
