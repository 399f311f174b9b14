import { readFileSync } from "node:fs";

type Row = Readonly<Record<string, never>>;

/** Rows of a file of published values beside the tests, of one kind where the file holds several. */
// biome-ignore lint/suspicious/noExplicitAny: rows of a published table have whatever columns it prints
export function published(topic: string, kind?: string): any[] {
  const file = new URL(`../references/${topic}.json`, import.meta.url);
  const { rows } = JSON.parse(readFileSync(file, "utf8")) as { rows: Row[] };
  return kind === undefined ? rows : rows.filter((row) => row.kind === kind);
}
