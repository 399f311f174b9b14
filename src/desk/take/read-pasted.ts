import type { Diagnostic, Span } from "../../diagnostics/diagnostic.ts";
import { didYouMean } from "../../diagnostics/did-you-mean.ts";
import { COLUMNS, type ReadingsOptions } from "../../job/readings-head.ts";
import { gluedCell, MISSING } from "../../job/readings-row.ts";
import { parseReadingsTable, type ReadingsTable } from "../../job/readings-table.ts";
import type { Cell, CellRow } from "../../source/read-delimited.ts";
import { acceptedUnits, findUnit, type Kind, nounOf } from "../../units/table.ts";
import { bareUnit, type ColumnHead, columnHead, type HeadName, unitIn } from "./column-head.ts";
import {
  blankHead,
  cutRows,
  isFilled,
  isNumbers,
  PARTINGS,
  type Parting,
  SPREADSHEET_FAULT,
  usualWidth,
} from "./cut-rows.ts";
import { type DecimalMark, decimalMark, withPoint } from "./decimal-mark.ts";

/** What the command line says of the readings; all of it can be left out. */
export type PastedOptions = {
  readonly parting?: Parting;
  readonly decimal?: DecimalMark;
  /** One a column; undefined for one that is left out. */
  readonly columns?: readonly (ColumnHead | undefined)[];
  readonly side?: "intake" | "exhaust";
  readonly units: Readonly<Partial<Record<Kind, string>>>;
};

/** A table as understood: checked, and in the words of a job file. */
export type Pasted = {
  readonly table: ReadingsTable;
  /** Head and rows in the job's words; every cell knows where it stood. */
  readonly head: readonly Cell[];
  readonly rows: readonly CellRow[];
  readonly parting: Parting;
  readonly decimal: DecimalMark;
  /** Columns and lines that were not taken over. */
  readonly leftOut: readonly string[];
};

type Read = { readonly pasted?: Pasted; readonly diagnostics: readonly Diagnostic[] };
type Col = {
  readonly name: Exclude<HeadName, "flow" | "note">;
  readonly unit?: string;
  readonly at: Cell;
  readonly index: number;
};

/** Readings from a spreadsheet, a logger or a clipboard. Every fault has its place in their text. Pure: `file` only names it. */
export function readPasted(
  file: string,
  text: string,
  asked: PastedOptions,
  bench: Pick<ReadingsOptions, "units" | "reads">,
): Read {
  const at = (cell: { readonly start: number; readonly end: number }): Span => ({
    file,
    start: cell.start,
    end: cell.end,
  });
  const error = (code: Diagnostic["code"], message: string, place: Span, hint: string): Diagnostic => ({
    severity: "error",
    code,
    message,
    at: place,
    hint,
  });
  const refuse = (...args: Parameters<typeof error>): Read => ({ diagnostics: [error(...args)] });
  if (text.trim() === "")
    return refuse(
      "take/empty",
      "there is nothing here",
      { file, start: 0, end: 0 },
      "copy the table with its head line",
    );
  if (/^\s*</.test(text))
    return refuse(
      "take/not-a-table",
      "this is a web page, not a table",
      { file, start: 0, end: 1 },
      "copy the table alone, or export it as CSV",
    );
  const broken = SPREADSHEET_FAULT.exec(text);
  if (broken)
    return refuse(
      "take/spreadsheet-fault",
      `\`${broken[0]}\` is a fault of the spreadsheet, not a reading`,
      { file, start: broken.index, end: broken.index + broken[0].length },
      "mend its formula, or write - for a reading that was not taken",
    );

  const partings = asked.parting === undefined ? PARTINGS : [asked.parting];
  const cuts = partings.map((parting) => ({ parting, ...cutRows(file, text, parting) }));
  const found = cuts.map((cut) => ({ ...cut, ...findHead(cut.rows, cut.parting, text, asked) }));
  const best = found.find(({ head }) => head.length > 0) ?? found[0]!;
  if (best.diagnostics.length > 0) return { diagnostics: best.diagnostics };
  const first = best.rows.find(isFilled);
  if (best.head.length === 0 || !first) {
    const cells = first?.cells ?? [];
    const whole: Span = { file, start: cells[0]?.start ?? 0, end: cells.at(-1)?.end ?? 1 };
    const none = first && isNumbers(first);
    return refuse(
      "take/head",
      none ? "no line names the columns" : "no line with a column `lift` beside a reading was found",
      whole,
      "say what the columns are: --columns lift,intake,exhaust (with - for one to leave out)",
    );
  }

  const { parting, head, body, above } = best;
  const sorted = sortColumns(head, asked, at, error);
  if (sorted.faults.length > 0) return { diagnostics: sorted.faults };
  const { columns, notes, leftOut } = sorted;
  const units = columns.map((column) => unitOf(column, asked, bench));
  const wrong = columns.flatMap((column, index) => {
    const own = units[index]!;
    return "fault" in own ? [error("take/unit", own.fault, at(column.at), own.hint)] : [];
  });
  if (wrong.length > 0) return { diagnostics: wrong };

  const uneven = body.filter(isFilled).flatMap((row) => wrongWidth(row, head.length, notes, parting, at, error));
  if (uneven.length > 0) return { diagnostics: uneven.slice(0, 20) };
  const numbers = body.flatMap(({ cells }) => columns.flatMap(({ index }) => cells[index] ?? []));
  const { mark, faults } = decimalMark(numbers, asked.decimal, at);
  if (faults.length > 0) return { diagnostics: faults };

  const rows = body.map((row): CellRow => {
    if (!isFilled(row)) return { ...row, cells: [] };
    const cells = columns.map(({ index }) => plainCell(row.cells[index] ?? { text: "", ...endOf(row) }, mark));
    const words = [...notes.map((index) => row.cells[index]), row.comment].flatMap((note) =>
      note?.text ? [note] : [],
    );
    const comment = words[0] && {
      ...words[0],
      text: words.map((note) => note.text.replace(/[\s#]+/g, " ").trim()).join("; "),
    };
    return { cells, ...(comment && { comment }) };
  });
  const heads = columns.map(({ name, at: place }, index): Cell => {
    const unit = (units[index] as { readonly unit?: string }).unit;
    return { ...place, text: unit === undefined ? name : `${name}/${unit}` };
  });
  const { table, diagnostics } = parseReadingsTable([{ cells: heads }, ...rows], {
    ...bench,
    at: (start, end) => ({ file, start, end }),
  });
  if (!table) return { diagnostics };
  const lines = above > 0 ? [`${above} line${above === 1 ? "" : "s"} above the head`] : [];
  return { pasted: { table, head: heads, rows, parting, decimal: mark, leftOut: [...lines, ...leftOut] }, diagnostics };
}

type Head = { readonly cell: Cell; readonly head: ColumnHead | undefined };

/** The line that names the columns, with the units that may stand on the line below it, and the rows that follow. */
function findHead(
  rows: readonly CellRow[],
  parting: Parting,
  text: string,
  { columns: asked, side }: PastedOptions,
): { readonly head: readonly Head[]; readonly body: readonly CellRow[]; readonly above: number } {
  const filled = rows.filter(isFilled);
  const none = { head: [], body: [], above: 0 };
  const width = usualWidth(filled);
  const firstNumbers = filled.findIndex(isNumbers);
  const cellsOf = (row: CellRow) => withoutEmptyEnd(parting === " " ? blankHead(row, text, width) : row.cells);
  const bodyFrom = (row: CellRow | undefined) => (row ? rows.slice(rows.indexOf(row)) : []);
  if (firstNumbers < 0) return none;

  if (asked || (side && firstNumbers === 0)) {
    const names = asked ?? [{ name: "lift" } as const, { name: side! } as const];
    // Only a cut that parts the numbers into as many cells is the right one.
    if (
      width !== names.length ||
      (parting === "," &&
        filled.some((row) => isNumbers(row) && row.cells.some(({ text: cell }) => /\d\s+[\d-]/.test(cell))))
    )
      return none;
    const first = filled[firstNumbers]!;
    const lines = filled
      .slice(0, firstNumbers)
      .map(cellsOf)
      .filter((cells) => cells.length === names.length);
    const head = names.map((name, index): Head => {
      const cell = lines[0]?.[index] ?? first.cells[index]!;
      const unit =
        name &&
        (name.unit ??
          lines
            .map((cells) => bareUnit(cells[index]!.text) ?? unitIn(cells[index]!.text, name.name))
            .find((each) => each !== undefined));
      return { cell, head: name && (unit === undefined ? name : { ...name, unit }) };
    });
    return { head, body: bodyFrom(first), above: firstNumbers };
  }

  const place = filled.slice(0, firstNumbers).findIndex((row) => {
    const names = cellsOf(row).flatMap(({ text: cell }) => columnHead(cell)?.name ?? []);
    return names.includes("lift") && names.some((name) => name !== "lift" && name !== "note");
  });
  if (place < 0) return none;
  const cells = cellsOf(filled[place]!);
  const below = filled[place + 1]!;
  const under = isNumbers(below) ? [] : below.cells;
  const isUnits =
    under.length > 0 && under.every(({ text: cell }) => /^[-–]?$/.test(cell) || bareUnit(cell) !== undefined);
  const head = cells.map((cell, index): Head => {
    const read = columnHead(cell.text);
    const unit = isUnits ? bareUnit(under[index]?.text ?? "") : undefined;
    return { cell, head: read && (read.unit === undefined && unit !== undefined ? { ...read, unit } : read) };
  });
  return { head, body: bodyFrom(filled[place + (isUnits ? 2 : 1)]), above: place };
}

type MakeError = (code: Diagnostic["code"], message: string, place: Span, hint: string) => Diagnostic;

/** Which column is what, and which are left out: said, and never left out when only a letter is wrong. */
function sortColumns(
  head: readonly Head[],
  { side, columns: asked }: PastedOptions,
  at: (cell: Cell) => Span,
  error: MakeError,
) {
  const columns: Col[] = [];
  const notes: number[] = [];
  const leftOut: string[] = [];
  const faults: Diagnostic[] = [];
  for (const [index, { cell, head: read }] of head.entries()) {
    if (!read) {
      const near = asked || cell.text === "" ? undefined : didYouMean(cell.text.replace(/[/([].*$/s, ""), COLUMNS);
      if (near)
        faults.push(
          error(
            "take/column",
            `\`${cell.text.slice(0, 40)}\` is not a column that is known`,
            at(cell),
            `did you mean ${near}? or say --columns`,
          ),
        );
      else if (cell.text !== "") leftOut.push(asked ? `column ${index + 1}` : `column \`${cell.text.slice(0, 40)}\``);
      continue;
    }
    if (read.name === "note") {
      notes.push(index);
      continue;
    }
    const name = read.name === "flow" ? side : read.name;
    if (name === undefined)
      faults.push(
        error(
          "take/side",
          `\`${cell.text.slice(0, 40)}\` does not say which side was flowed`,
          at(cell),
          "add --side intake or --side exhaust",
        ),
      );
    else if (columns.some((one) => one.name === name))
      faults.push(
        error(
          "take/column",
          `a second column for \`${name}\``,
          at(cell),
          "say which to take: --columns lift,intake,- leaves the last one out",
        ),
      );
    else columns.push({ name, ...(read.unit === undefined ? {} : { unit: read.unit }), at: cell, index });
  }
  const sides = columns.filter(({ name }) => name === "intake" || name === "exhaust");
  const whole = at({ text: "", start: head[0]!.cell.start, end: head.at(-1)!.cell.end });
  if (faults.length === 0 && sides.length === 0)
    faults.push(
      error(
        "take/side",
        "there is no column `intake` or `exhaust`",
        whole,
        "say what the columns are: --columns lift,intake,exhaust",
      ),
    );
  if (faults.length === 0 && side && !sides.some(({ name }) => name === side))
    faults.push(
      error(
        "take/side",
        `--side ${side} is asked for, but the head names the other side`,
        whole,
        "leave --side out, or say --columns",
      ),
    );
  return { columns, notes, leftOut, faults };
}

/** The unit of a column: its head's, else the command line's, else the job's. */
function unitOf(
  { name, unit, at: { text } }: Col,
  { units }: PastedOptions,
  { units: declared, reads }: Pick<ReadingsOptions, "units" | "reads">,
): { readonly unit?: string } | { readonly fault: string; readonly hint: string } {
  const kind =
    name === "lift"
      ? "length"
      : name.startsWith("pressure")
        ? "pressure"
        : name.startsWith("range")
          ? undefined
          : reads === "percent"
            ? "ratio"
            : "flow";
  if (kind === undefined)
    return unit === undefined ? {} : { fault: `\`${text}\`: a range has no unit`, hint: "name the range alone" };
  const own = unit === undefined ? undefined : findUnit(kind, unit);
  if (unit !== undefined && !own) {
    const percent = kind === "flow" && findUnit("ratio", unit) !== undefined;
    return {
      fault: `\`${unit.slice(0, 40)}\` is not a unit of ${nounOf(kind)}`,
      hint: percent
        ? "a bench that shows percent of a range says `reads: percent` and its `ranges` in the job"
        : `it is one of ${acceptedUnits(kind)}`,
    };
  }
  if (kind === "ratio") return {};
  const told = units[kind] === undefined ? undefined : findUnit(kind, units[kind]);
  if (own && told && own.name !== told.name)
    return {
      fault: `the head says ${own.name}, --units says ${told.name}`,
      hint: "leave --units out, or mend the head",
    };
  const final = (own ?? told)?.name;
  if (final === undefined && declared[kind] === undefined)
    return {
      fault: `nobody says in which unit \`${name}\` is`,
      hint: `add --units ${kind}=${kind === "length" ? "mm" : kind === "flow" ? "cfm" : "inH2O"}, or put \`units\` into the job`,
    };
  return final === undefined || final === declared[kind] ? {} : { unit: final };
}

function wrongWidth(
  row: CellRow,
  columns: number,
  notes: readonly number[],
  parting: Parting,
  at: (cell: Cell) => Span,
  error: MakeError,
): Diagnostic[] {
  const cells = withoutEmptyEnd(row.cells, columns);
  // Words that nobody wrote may be missing at a row's end.
  const missing = Array.from({ length: Math.max(0, columns - cells.length) }, (_, index) => cells.length + index);
  if (cells.length <= columns && missing.every((index) => notes.includes(index))) return [];
  const whole = at({ text: "", start: cells[0]!.start, end: cells.at(-1)!.end });
  const has = `row \`${cells[0]!.text.slice(0, 40)}\` has ${cells.length} ${cells.length === 1 ? "value" : "values"}, the head names ${columns} columns`;
  if (cells.length < columns) return [error("take/row", has, whole, "write - for a reading that was not taken")];
  const hint =
    parting === ","
      ? "do commas part both cells and decimals? Export with ; or tabs between the cells, or paste from the spreadsheet"
      : "delete what is too much, or name its column in the head";
  return [error("take/row", has, whole, hint)];
}

/** A cell in the job's words: nothing typed and `n/a` are `-`, a decimal comma is a point, blanks part no more. */
function plainCell(cell: Cell, mark: DecimalMark): Cell {
  if (cell.text === "" || MISSING.test(cell.text) || /^(-{2,}|n\/?a|nan|null|none)$/i.test(cell.text))
    return { ...cell, text: "-" };
  return { ...cell, text: gluedCell(mark === "comma" ? withPoint(cell.text) : cell.text) };
}

function withoutEmptyEnd(cells: readonly Cell[], least = 0): readonly Cell[] {
  let end = cells.length;
  while (end > least && cells[end - 1]!.text === "") end--;
  return cells.slice(0, end);
}

const endOf = ({ cells }: CellRow) => ({ start: cells.at(-1)!.end, end: cells.at(-1)!.end });
