import type { BlockContent, HeadPlan, Part, Sheet, Table, TableCell } from "../../src/sheet/content.ts";
import type { ReadCell, ReadTable } from "./read-tables.ts";

/** A table of the content with the words that should caption it: its own title, or the heading and captions over it. */
type Wanted = { readonly table: Table; readonly caption: string; readonly mayBeLeftOut: boolean };

export function wantedTables({ rows, onePage }: Sheet): readonly Wanted[] {
  return rows.flatMap(({ cells }) => cells.flatMap(({ block }) => tablesOf(block, onePage)));
}

function tablesOf({ parts, optional, priority }: BlockContent, onePage: boolean): readonly Wanted[] {
  return parts.flatMap((part, i): Wanted[] => {
    const table = part.kind === "head-plan" ? planTable(part) : part;
    if (table.kind !== "table" || table.rows.length === 0) return [];
    const over = parts.slice(0, i);
    const from =
      over.findLastIndex((one) => !isCaption(one)) + (isHeading(over.findLast((one) => !isCaption(one))) ? 0 : 1);
    const caption = table.title ?? over.slice(from).map(wordsOf).join(" ");
    return [{ table, caption: plain(caption), mayBeLeftOut: optional === true || (onePage && priority < 100) }];
  });
}

/** A plan of the head as it is tagged: a row a valve, intakes of a cylinder before its exhausts. */
function planTable({ names, cylinders }: HeadPlan): Table {
  const rows = cylinders.flatMap(({ intake, exhaust }) =>
    [...intake, ...exhaust].map(({ label, side, values }): TableCell[] => [
      { text: `${label} ${side}` },
      ...values.map(({ text, boxed }) => ({ text, ...(boxed ? { boxed } : {}) })),
    ]),
  );
  const columns = ["", ...names].map((title) => ({ title, align: "right" as const }));
  return { kind: "table", columns, rows, rowHeads: true, fifths: false, notes: [] };
}

const isCaption = (part: Part) => part.kind === "paragraph" && part.style === "caption";
const isHeading = (part: Part | undefined) => part?.kind === "heading" && part.level > 1;
const wordsOf = (part: Part) =>
  part.kind === "heading" ? part.text : part.kind === "paragraph" ? `${part.lead ?? ""} ${part.text}` : "";
const plain = (text: string) => text.replace(/\s+/g, " ").trim();

/** What the tables of a file say otherwise than the sheet's content: words, heads or captions of a cell. */
export function contentFaults(sheet: Sheet, read: readonly ReadTable[]): readonly string[] {
  const faults: string[] = [];
  const cellsOf = ({ rows }: ReadTable) => JSON.stringify(rows.map((row) => row.map(({ text }) => text)));
  // A block may stand on a later page than what follows it.
  const left = [...read];
  for (const { table, caption, mayBeLeftOut } of wantedTables(sheet)) {
    const own = JSON.stringify(table.rows.map((row) => row.map((cell) => plain(said(cell)))));
    const at = left.findIndex((one) => cellsOf(one) === own);
    if (at < 0) {
      if (!mayBeLeftOut) faults.push(`"${caption}": no table of ${own}`);
      continue;
    }
    const [found] = left.splice(at, 1) as [ReadTable];
    if ((found.caption ?? "") !== caption) faults.push(`"${caption}": captioned "${found.caption}"`);
    found.rows.forEach((row, r) => {
      row.forEach((cell, c) => {
        if (cell.text !== "") faults.push(...headFaults(table, cell, r, c).map((fault) => `"${caption}": ${fault}`));
      });
    });
  }
  return left.length === 0 ? faults : [...faults, `tables that the content has not: ${left.map(cellsOf).join(" ")}`];
}

const said = ({ text, plusMinus = "", markLabel = "", boxed = "" }: TableCell) =>
  `${text} ${plusMinus} ${markLabel} ${boxed}`;

function headFaults(table: Table, cell: ReadCell, row: number, column: number): readonly string[] {
  const over = (table.groups ?? []).flatMap(({ text, span }) => Array.from({ length: span }, () => text));
  const { title, unit = "" } = table.columns[column]!;
  const wanted = [over[column] ?? "", `${title} ${unit}`].map(plain).filter((text) => text !== "");
  const isHead = table.rowHeads && column === 0;
  const beside = isHead || !table.rowHeads ? [] : [plain(said(table.rows[row]![0]!))];
  return [
    ...(JSON.stringify(cell.column) === JSON.stringify(wanted)
      ? []
      : [`${cell.text} under ${cell.column}, not ${wanted}`]),
    ...(JSON.stringify(cell.row) === JSON.stringify(beside) ? [] : [`${cell.text} beside ${cell.row}, not ${beside}`]),
    ...(cell.isHead === isHead ? [] : [`${cell.text} is ${cell.isHead ? "a" : "no"} head`]),
  ];
}
