import { lineEnd, lineStart } from "../../parse/yaml/error-places.ts";
import type { BenchAct, BenchEdit, BenchSide, BenchTarget, TextEdit } from "./bench-act.ts";
import { editStage } from "./edit-stage.ts";
import type { EditableJob } from "./find-place.ts";
import {
  cellOf,
  type GridCell,
  type GridRow,
  isMissingText,
  ownerOf,
  type ReadingsGrid,
  readGrid,
  stageNames,
} from "./readings-grid.ts";

const READING = /^(?:~?(?:\d+\.?\d*|\.\d+)%?|(?:\d+\.?\d*|\.\d+)%?[?!]|-)$/;
const LIFT = /^(?:\d+\.?\d*|\.\d+)$/;

/** A reading or lift as it is written: a decimal comma is taken as a point. */
const withPoint = (typed: string) => typed.trim().replace(/^(\D?\d*),(\d+\D?)$/, "$1.$2");

/** Computes the edit of one act; all else in the text stays byte for byte. */
export function editReadings(job: EditableJob, target: BenchTarget, act: BenchAct): BenchEdit {
  const stage = stageNames(job).indexOf(target.stage);
  const grid = stage < 0 ? undefined : readGrid(job, ownerOf(stage, target.run));
  if (act.kind === "reason") return editReason(grid?.rows[act.row], act.words);
  const typed = withPoint(act.typed);
  if (!READING.test(typed)) return { fault: `\`${act.typed}\` is no reading: type a number, or - for none` };
  if (act.kind === "cell") return replaceCell(job.text, grid, act.row, act.side, typed);
  const lift = withPoint(act.lift);
  if (!LIFT.test(lift) || Number(lift) === 0) return { fault: `\`${act.lift}\` is no lift: type a number above zero` };
  return grid && grid.rows.length > 0
    ? enterReading(job.text, grid, { ...act, lift, typed })
    : firstReading(job, target, stage, { ...act, lift, typed });
}

/** The first reading writes the table's head too, and the stage where there is none yet. */
function firstReading(job: EditableJob, target: BenchTarget, stage: number, act: Reading): BenchEdit {
  if (target.run !== undefined) return { fault: "this run has no table that can be edited here" };
  const [lift, intake, exhaust] = [
    act.lift,
    ...(["intake", "exhaust"] as const).map((side) => (side === act.side ? act.typed : "-")),
  ];
  const wide = (text: string, head: string) => text.padEnd(Math.max(text.length, head.length));
  const head = [`lift`, "intake", "exhaust"]
    .map((name, index) => wide(name, [lift, intake, exhaust][index]!))
    .join("  ")
    .trimEnd();
  const row = [
    wide(lift!, "lift"),
    intake!.padStart(Math.max(6, intake!.length)),
    exhaust!.padStart(Math.max(7, exhaust!.length)),
  ].join("  ");
  const put = { stage: target.stage, newStage: stage < 0, replace: true };
  const made = editStage(job, put, [head, row], ["intake", "exhaust"]);
  if ("fault" in made) return { fault: made.fault.message };
  const { start, end, text } = made.edit;
  return { edit: { from: start, to: end, insert: text } };
}

type Reading = Extract<BenchAct, { kind: "reading" }>;

const isSame = (one: string | undefined, other: string) => Number(one) === Number(other);

function enterReading(text: string, grid: ReadingsGrid, act: Reading): BenchEdit {
  if (!grid.columns.includes("lift")) return { fault: "the table has no column `lift`" };
  if (!grid.columns.includes(act.side)) return addColumn(text, grid, act);
  const isHere = (row: GridRow) => isSame(cellOf(grid, row, "lift")?.text, act.lift);
  const rising = grid.rows.findIndex((row) => row.rises && isHere(row));
  const isOpen = (row: GridRow) => isHere(row) && isMissingText(cellOf(grid, row, act.side)?.text);
  if (!act.again && rising >= 0 && isOpen(grid.rows[rising]!)) {
    const { comment } = grid.rows[rising]!;
    if (comment && !act.over) return { fault: `not taken before: ${comment.text}. Fill it?`, ask: true };
    return replaceCell(text, grid, rising, act.side, act.typed);
  }
  const open = grid.rows.findIndex((row) => !row.rises && isOpen(row) && !row.comment);
  if (rising >= 0 && open >= 0) return replaceCell(text, grid, open, act.side, act.typed);
  const others = grid.columns.filter((name) => !["lift", "intake", "exhaust"].includes(name));
  if (others.length > 0) return { fault: `this table has a column \`${others[0]}\`: add the row in Job text` };
  const after = rising >= 0 ? grid.rows.length - 1 : lastBelow(grid, Number(act.lift));
  return insertRow(text, grid, after, act);
}

/** Index of the last row of the rise below a lift; -1 puts a row above all. */
const lastBelow = (grid: ReadingsGrid, lift: number) =>
  grid.rows.findLastIndex((row) => row.rises && Number(cellOf(grid, row, "lift")?.text) < lift);

/** Puts a row below another one, or below the head, with its cells under those of a row beside it. */
function insertRow(text: string, grid: ReadingsGrid, after: number, act: Reading): BenchEdit {
  const beside = grid.rows[Math.max(0, after)]!;
  const above = after < 0 ? grid.head[0]! : grid.rows[after]!.cells[0]!;
  const start = lineStart(text, beside.cells[0]!.from);
  const tabs = text.slice(start, beside.cells.at(-1)!.to).trimStart().includes("\t");
  let line = "";
  for (const [index, name] of grid.columns.entries()) {
    const typed = name === "lift" ? act.lift : name === act.side ? act.typed : "-";
    const under = beside.cells[index];
    const indent = text.slice(start, beside.cells[0]!.from);
    if (index === 0) line = indent + typed;
    else if (tabs) line += `\t${typed}`;
    else line += " ".repeat(Math.max(1, under ? pointOf(under, start) - beforePoint(typed) - line.length : 2)) + typed;
  }
  const at = lineEnd(text, above.from);
  const eol = text[at] === "\r" || text[at - 1] === "\r" ? "\r\n" : lineBreakOf(text);
  return { edit: { from: at, to: at, insert: `${eol}${line}` } };
}

const lineBreakOf = (text: string) => /\r?\n/.exec(text)?.[0] ?? "\n";

const beforePoint = (typed: string) => /^[^.?!%]*/.exec(typed)![0].length;
/** Column of a cell's decimal point in its line. */
const pointOf = (cell: GridCell, line: number) => cell.from - line + beforePoint(cell.text);

/** Replaces a cell; blanks around it are taken or given so that the cells behind it stay where they are. */
function replaceCell(
  text: string,
  grid: ReadingsGrid | undefined,
  row: number,
  side: BenchSide,
  typed: string,
): BenchEdit {
  const found = grid?.rows[row];
  if (!grid || !found) return { fault: "this row is not there any more" };
  const index = grid.columns.indexOf(side);
  const cell = found.cells[index];
  if (!cell)
    return index < 0 ? { fault: `the table has no column \`${side}\`` } : completeRow(grid, found, index, typed);
  const line = lineStart(text, cell.from);
  const other = grid.rows.find((one) => one !== found && !isMissingText(one.cells[index]?.text))?.cells[index];
  const alone = cell.to - line - typed.length + beforePoint(typed);
  const point = !isMissingText(cell.text)
    ? pointOf(cell, line)
    : other
      ? pointOf(other, lineStart(text, other.from))
      : alone;
  const room = / *$/.exec(text.slice(line, cell.from))![0].length;
  const shift = room === 0 ? 0 : Math.max(1 - room, point - beforePoint(typed) - (cell.from - line));
  const from = cell.from + Math.min(0, shift);
  const insert = " ".repeat(Math.max(0, shift)) + typed;
  const behind = /^ *(?=\S)/.exec(text.slice(cell.to, lineEnd(text, cell.to)))?.[0].length ?? 0;
  const blanks = behind === 0 ? 0 : Math.max(1, behind - (insert.length - (cell.to - from)));
  return { edit: { from, to: cell.to + behind, insert: insert + " ".repeat(blanks) } };
}

/** Completes a row that lacks its last cells. */
function completeRow(grid: ReadingsGrid, row: GridRow, index: number, typed: string): BenchEdit {
  const missing = grid.columns.slice(row.cells.length, index).map(() => "-");
  const at = row.cells.at(-1)!.to;
  return { edit: { from: at, to: at, insert: [...missing, typed].map((one) => `  ${one}`).join("") } };
}

/** Adds the column of a side that the table lacks, with `-` in the rows above, and the reading. */
function addColumn(text: string, grid: ReadingsGrid, act: Reading): BenchEdit {
  const lines: readonly GridRow[] = [{ cells: grid.head, rises: true }, ...grid.rows];
  const row = grid.rows.find((one) => one.rises && isSame(cellOf(grid, one, "lift")?.text, act.lift));
  if (!row) return { fault: `type ${act.side} at a lift of the table first` };
  const [start, end] = [lines[0]!.cells.at(-1)!.to, lines.at(-1)!.cells.at(-1)!.to];
  let insert = "";
  let next = start;
  for (const line of lines) {
    const at = line.cells.at(-1)!.to;
    const cell = line === lines[0] ? act.side : line === row ? act.typed : "-";
    insert += `${text.slice(next, at)}  ${cell.padStart(line === lines[0] ? 0 : act.side.length)}`;
    next = at;
  }
  return { edit: { from: start, to: end, insert } };
}

/** Writes, replaces or takes away the reason behind a row's `#`. */
function editReason(row: GridRow | undefined, typed: string): BenchEdit {
  if (!row) return { fault: "this row is not there any more" };
  const words = typed
    .replace(/\p{Cc}+/gu, " ")
    .trim()
    .slice(0, 200);
  const { from, to } = row.comment ?? { from: row.cells.at(-1)!.to, to: row.cells.at(-1)!.to };
  if (row.comment && words === "") return { edit: { from: row.cells.at(-1)!.to, to, insert: "" } };
  return { edit: { from, to, insert: words === "" ? "" : `${row.comment ? "" : "  "}# ${words}` } };
}

export const applyEdit = (text: string, { from, to, insert }: TextEdit): string =>
  text.slice(0, from) + insert + text.slice(to);
