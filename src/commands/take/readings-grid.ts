import { readHead } from "../../job/readings/readings-head.ts";
import { readingsRows } from "../../job/readings/readings-table.ts";
import type { Cell } from "../../parse/parse-delimited.ts";
import { type Path, valueAt } from "../../parse/yaml/source-document.ts";
import { type EditableJob, listAt } from "./find-place.ts";

/** A word of a table with its offsets in the job's text. */
export type GridCell = { readonly text: string; readonly from: number; readonly to: number };
export type GridRow = {
  readonly cells: readonly GridCell[];
  /** Words behind `#`, and where they and their `#` stand. */
  readonly comment?: GridCell;
  /** At or before the highest lift, and no lift typed twice. */
  readonly rises: boolean;
};

/** A readings table of a job as it is typed, whether or not it holds what a job may. */
export type ReadingsGrid = {
  readonly columns: readonly string[];
  readonly head: readonly GridCell[];
  readonly rows: readonly GridRow[];
};

/** Path of a table's owner: a stage, or one of its runs. */
export const ownerOf = (stage: number, run: number | undefined): Path =>
  run === undefined ? ["stages", stage] : ["stages", stage, "runs", run];

export const stageNames = ({ located }: EditableJob): readonly string[] =>
  listAt(located, ["stages"]).map((stage) => {
    const name = valueAt(stage, ["name"]);
    return typeof name === "string" ? name : "";
  });

/** The table of a stage or run; undefined without rows, or where it does not stand in a literal block. */
export function readGrid({ located }: EditableJob, owner: Path): ReadingsGrid | undefined {
  const path: Path = [...owner, "flow"];
  const text = valueAt(located.value, path);
  if (typeof text !== "string" || !located.isLiteralBlock(path)) return undefined;
  const place = ({ text: words, start, end }: Cell): GridCell => {
    const at = located.textSpan(path, start, end);
    return { text: words, from: at.start, to: at.end };
  };
  const [head, ...body] = readingsRows(text).filter(({ cells }) => cells.length > 0);
  if (!head) return undefined;
  const { columns } = readHead(head, {
    units: {},
    reads: "flow",
    at: (start, end) => located.textSpan(path, start, end),
  });
  const names = columns.map(({ name }) => name);
  const lifts = body.map(({ cells }) => Number(cells[names.indexOf("lift")]?.text));
  const top = lifts.indexOf(Math.max(...lifts.filter(Number.isFinite)));
  return {
    columns: names,
    head: head.cells.map(place),
    rows: body.map(({ cells, comment }, index) => ({
      cells: cells.map(place),
      ...(comment ? { comment: place(comment) } : {}),
      rises: index <= top && lifts.indexOf(lifts[index]!) === index,
    })),
  };
}

/** The cell of a column in a row. */
export const cellOf = ({ columns }: ReadingsGrid, row: GridRow, name: string): GridCell | undefined =>
  row.cells[columns.indexOf(name)];

export const isMissingText = (text: string | undefined): boolean =>
  text === undefined || /^[-\u2010-\u2015\u2212]$/.test(text);
