import type { Drawing } from "../../src/charts/drawing.ts";
import type { PlacedItem } from "../../src/layout/page.ts";
import type { Content } from "./stages.ts";

/** What both make of a page: its running text, its table, its charts. */
export type Plain = {
  readonly texts: readonly string[];
  readonly table: readonly (readonly string[])[];
  readonly charts: readonly Drawing[];
};

/** The same words, cells and curves, left to each library to set in its own way. */
export function plainOf({ pages }: Content): Plain {
  const items = pages.flatMap((page) => page.items);
  const texts: string[] = [];
  const rows = new Map<string, string[]>();
  for (const item of items) {
    if (item.kind !== "text") continue;
    if (item.tag.kind !== "cell") texts.push(item.text);
    else {
      const key = `${item.tag.table} ${item.tag.row}`;
      const row = rows.get(key) ?? [];
      row[item.tag.column] = `${row[item.tag.column] ?? ""} ${item.text}`.trim();
      rows.set(key, row);
    }
  }
  if (rows.size < 10) throw new Error("the page of the bench lacks its table");
  const width = Math.max(...[...rows.values()].map((row) => row.length));
  const table = [...rows.values()].map((row) => Array.from({ length: width }, (_, i) => row[i] ?? ""));
  return { texts, table, charts: items.flatMap((item: PlacedItem) => (item.kind === "drawing" ? [item.drawing] : [])) };
}
