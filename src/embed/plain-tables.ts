import type { DeclaredUnits } from "../job/schema/quantities.ts";
import type { ProfileRow, SectionRow } from "../job/schema/tables.ts";
import { VALVE_TRAIN_COLUMNS, type ValveTrainRow } from "../job/schema/valve-train.ts";
import type { Kind } from "../units/table.ts";
import { formatExactQuantity } from "./exact-quantity.ts";

/** Formats sections along a port as a table, every cell with its unit. */
export function formatSections(rows: readonly unknown[], units: DeclaredUnits): string {
  const all = rows as readonly SectionRow[];
  const used = COLUMNS.filter(({ key }) => all.some((row) => row[key] !== undefined));
  const cells = all.map((row) =>
    used.map(({ key, kind }) => {
      const value = row[key];
      if (value === undefined) return "-";
      return typeof value === "string" || kind === undefined ? String(value) : formatCell(value, kind, units);
    }),
  );
  return joinRows([used.map(({ key }) => key), ...cells]);
}

/** Formats a measured cam profile as a table. */
export function formatProfile(rows: readonly unknown[], units: DeclaredUnits): string {
  const cells = (rows as readonly ProfileRow[]).map(({ angle, lift }) => [
    formatCell(angle, "angle", units),
    formatCell(lift, "length", units),
  ]);
  return joinRows([["degrees", "lift"], ...cells]);
}

const COLUMNS: readonly { readonly key: keyof SectionRow; readonly kind?: Kind }[] = [
  { key: "at", kind: "length" },
  { key: "width", kind: "length" },
  { key: "height", kind: "length" },
  { key: "corner", kind: "length" },
  { key: "area", kind: "area" },
  { key: "name" },
];

/** Formats a valve train as a table: what was not taken is a dash. */
export function formatValveTrain(rows: readonly unknown[], units: DeclaredUnits): string {
  const all = rows as readonly ValveTrainRow[];
  const used = Object.entries(VALVE_TRAIN_COLUMNS).filter(([key]) =>
    all.some((row) => row[key as keyof ValveTrainRow] !== undefined),
  );
  const cells = all.map((row) =>
    used.map(([key, { kind }]) => {
      const value = row[key as keyof ValveTrainRow];
      if (value === undefined) return "-";
      return typeof value === "string" ? value : formatCell(value, kind as Kind, units);
    }),
  );
  return joinRows([used.map(([key]) => key), ...cells]);
}

/** Blanks separate cells, so number and unit are joined. */
const formatCell = (value: number, kind: Kind, units: DeclaredUnits) =>
  formatExactQuantity(value, kind, units[kind]).replace(" ", "");

const joinRows = (rows: readonly (readonly string[])[]) => rows.map((row) => `${row.join("  ")}\n`).join("");
