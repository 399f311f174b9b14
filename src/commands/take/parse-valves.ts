import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { columnOfWord } from "../../job/readings/column-words.ts";
import { MISSING } from "../../job/readings/readings-row.ts";
import type { VALVE_TRAIN_COLUMNS } from "../../job/schema/valve-train.ts";
import type { Cell, CellRow } from "../../parse/parse-delimited.ts";
import { countNoun } from "../report.ts";
import { detectDecimalMark, toDecimalPoint } from "./decimal-mark.ts";
import { trimEmptyCells } from "./find-head.ts";
import { DELIMITER_NAMES, DELIMITERS, type Delimiter, isFilled, splitRows } from "./split-rows.ts";
import { createErrorBuilder } from "./take-error.ts";

type ColumnName = keyof typeof VALVE_TRAIN_COLUMNS;

/** A table of the valve train, head and rows as a job file has them; each cell keeps its span in the source. */
export type PastedValves = {
  readonly head: readonly Cell[];
  readonly rows: readonly CellRow[];
  readonly said: readonly string[];
};

/** Words that tell a column; of several in one head the first here counts: a tip height is a tip. */
const WORDS: readonly (readonly [word: string, name: ColumnName])[] = [
  ...(["tip", "shim", "drop", "guide", "runout", "vacuum", "seal", "height"] as const).map(
    (name) => [name, name] as const,
  ),
  ["shims", "shim"],
  ["vac", "vacuum"],
  ["installed", "height"],
  ["valve", "valve"],
  ["valves", "valve"],
];

/**
 * Parses a table with a column `valve` and another of the valve train, from a spreadsheet or the clipboard; undefined where
 * the text has no such head. Pure: `file` is a name only.
 */
export function parseValves(
  file: string,
  text: string,
  stated: Delimiter | undefined,
): { readonly valves?: PastedValves; readonly diagnostics: readonly Diagnostic[] } | undefined {
  for (const delimiter of stated === undefined ? DELIMITERS : [stated]) {
    const { rows, diagnostics } = splitRows(file, text, delimiter);
    const place = rows.findIndex(headsValves);
    if (place < 0) continue;
    if (diagnostics.length > 0) return { diagnostics };
    return readValves(file, rows[place]!, rows.slice(place + 1).filter(isFilled), delimiter);
  }
  return undefined;
}

function headsValves({ cells }: CellRow): boolean {
  const names = cells.flatMap(({ text }) => columnOf(text)?.name ?? []);
  return names.includes("valve") && names.length > 1;
}

function readValves(file: string, head: CellRow, body: readonly CellRow[], delimiter: Delimiter) {
  const fault = createErrorBuilder(file);
  const columns = trimEmptyCells(head.cells).map((at, index) => ({ at, index, of: columnOf(at.text) }));
  const known = columns.flatMap(({ at, index, of }) => (of ? [{ at, index, ...of }] : []));
  const numbers = body.flatMap(({ cells }) =>
    known.flatMap(({ index, name }) => (name === "valve" ? [] : (cells[index] ?? []))),
  );
  const { mark, faults } = detectDecimalMark(numbers, undefined, fault);
  if (faults.length > 0) return { diagnostics: faults };
  const rows = body.map((row): CellRow => {
    const end = row.cells.at(-1)!.end;
    const cells = known.map(({ index, name }): Cell => {
      const cell = row.cells[index] ?? { text: "", start: end, end };
      if (name === "valve") return { ...cell, text: valveName(cell.text) };
      const text = mark === "comma" ? toDecimalPoint(cell.text) : cell.text;
      return { ...cell, text: text === "" || MISSING.test(text) || /^n\/?a$/i.test(text) ? "-" : text };
    });
    return { ...row, cells };
  });
  const leftOut = columns.flatMap(({ at, of }) => (of || at.text === "" ? [] : [at.text]));
  const said = [
    `${file}: ${DELIMITER_NAMES[delimiter]} between columns, decimal ${mark}`,
    `  columns: ${known.map(({ name, unit }) => (unit ? `${name} (${unit})` : name)).join(", ")}`,
    ...(leftOut.length > 0 ? [`  left out: ${leftOut.join(", ")}`] : []),
    `  ${countNoun(rows.length, "valve")}`,
  ];
  const heads = known.map(({ at, name, unit }): Cell => ({ ...at, text: unit ? `${name}/${unit}` : name }));
  return { valves: { head: heads, rows, said }, diagnostics: [] };
}

/** The column and unit of a head such as `Installed height (in)` or `guide/mm`. */
function columnOf(typed: string): { readonly name: ColumnName; readonly unit?: string } | undefined {
  const [, title = "", bracketed, slashed] = /^(.+?)\s*(?:[([]([^)\]]*)[)\]]|\/\s*(\S+))?$/.exec(typed.trim()) ?? [];
  const words: readonly string[] = title.toLowerCase().match(/\p{L}+/gu) ?? [];
  const name = WORDS.find(([word]) => words.includes(word))?.[1];
  const unit = (bracketed ?? slashed)?.trim();
  return name && (unit ? { name, unit } : { name });
}

const VALVE = /^(\d{1,2})([a-e]?)(intake|inlet|int|in|i|exhaust|outlet|exh|ex|e)\.?([a-e]?)$/i;

/** A valve as the job names it: `2 in a`, `2a intake` and `2Ia` are one. */
function valveName(typed: string): string {
  const match = VALVE.exec(typed.replace(/\s/g, ""));
  if (!match) return typed;
  const [, cylinder, before, side, after] = match;
  return `${cylinder}${columnOfWord(side!.toLowerCase()) === "intake" ? "I" : "E"}${(before || after)!.toLowerCase()}`;
}
