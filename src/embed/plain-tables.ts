import type { DeclaredUnits } from "../job/schema/quantities.ts";
import type { ProfileRow, SectionRow } from "../job/schema/tables.ts";
import type { Kind } from "../units/table.ts";
import { exactQuantity } from "./exact-quantity.ts";

/** Sections along a port as the table they were typed in; every cell carries its unit. */
export function sectionsText(rows: readonly unknown[], units: DeclaredUnits): string {
  const all = rows as readonly SectionRow[];
  const used = COLUMNS.filter(({ key }) => all.some((row) => row[key] !== undefined));
  const cells = all.map((row) =>
    used.map(({ key, kind }) => {
      const value = row[key];
      if (value === undefined) return "-";
      return typeof value === "string" || kind === undefined ? String(value) : glued(value, kind, units);
    }),
  );
  return lines([used.map(({ key }) => key), ...cells]);
}

/** A cam's measured lift, degree by degree. */
export function profileText(rows: readonly unknown[], units: DeclaredUnits): string {
  const cells = (rows as readonly ProfileRow[]).map(({ angle, lift }) => [
    glued(angle, "angle", units),
    glued(lift, "length", units),
  ]);
  return lines([["degrees", "lift"], ...cells]);
}

const COLUMNS: readonly { readonly key: keyof SectionRow; readonly kind?: Kind }[] = [
  { key: "at", kind: "length" },
  { key: "width", kind: "length" },
  { key: "height", kind: "length" },
  { key: "corner", kind: "length" },
  { key: "area", kind: "area" },
  { key: "name" },
];

/** Blanks part cells: number and unit stand together. */
const glued = (value: number, kind: Kind, units: DeclaredUnits) =>
  exactQuantity(value, kind, units[kind]).replace(" ", "");

const lines = (rows: readonly (readonly string[])[]) => rows.map((row) => `${row.join("  ")}\n`).join("");
