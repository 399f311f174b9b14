import type { Plain } from "../source/located.ts";
import type { Speed } from "../units/quantity.ts";
import type { Kind } from "../units/table.ts";
import { exactQuantity } from "./exact-quantity.ts";

/**
 * What may pass of a value, said beforehand: text as it is, numbers of a kind with their unit, maps by the keys that are
 * named and no others, records with any key. A value of two forms takes the one that fits.
 */
export type Shape = {
  readonly text?: true;
  readonly number?: true;
  readonly kind?: Kind;
  readonly keys?: Readonly<Record<string, Shape>>;
  readonly record?: Shape;
  /** Made into the text of a table by its own hand. */
  readonly table?: (rows: readonly unknown[], units: Units) => string;
};
export type Units = Readonly<Partial<Record<Kind, string>>>;

const NOT_MEASURED = "not measured";

/** Lets through what the shape names; undefined when nothing is left. Lists are of the same shape as their items. */
export function keep(value: unknown, shape: Shape, units: Units): Plain | undefined {
  if (value === undefined || value === null) return undefined;
  if (Array.isArray(value)) {
    if (shape.table) return shape.table(value, units);
    return some(value.map((item) => keep(item, shape, units)).filter((item) => item !== undefined));
  }
  if (typeof value === "string") return shape.text || value === NOT_MEASURED ? value : undefined;
  if (typeof value === "boolean") return shape.text ? String(value) : undefined;
  if (typeof value === "number")
    return shape.kind ? exactQuantity(value, shape.kind, units[shape.kind]) : shape.number ? String(value) : undefined;
  if (shape.kind === "speed") return exactQuantity(value as Speed, "speed", units.speed);
  const held = value as Readonly<Record<string, unknown>>;
  const entries = Object.entries(held).flatMap(([key, item]) => {
    const own = shape.record ?? (shape.keys && Object.hasOwn(shape.keys, key) ? shape.keys[key] : undefined);
    const kept = own && keep(item, own, units);
    return kept === undefined ? [] : [[key, kept] as const];
  });
  return entries.length > 0 ? Object.fromEntries(entries) : undefined;
}

const some = (items: readonly Plain[]): readonly Plain[] | undefined => (items.length > 0 ? items : undefined);
