import type { BlockContent, Part, Sheet, Table, TableCell } from "../../src/sheet/content.ts";
import type { ReadCell, ReadTable } from "./read-tables.ts";

/** A table of the content with the words that should caption it: its own title, or the heading and captions over it. */
type Wanted = { readonly table: Table; readonly caption: string; readonly mayBeLeftOut: boolean };

export function wantedTables({ rows, onePage }: Sheet): readonly Wanted[] {
  return rows.flatMap(({ cells }) => cells.flatMap(({ block }) => tablesOf(block, onePage)));
}

function tablesOf({ parts, optional, priority }: BlockContent, onePage: boolean): readonly Wanted[] {
  return parts.flatMap((part, i): Wanted[] => {
    if (part.kind !== "table" || part.rows.length === 0) return [];
    const over = parts.slice(0, i);
    const from =
      over.findLastIndex((one) => !isCaption(one)) + (isHeading(over.findLast((one) => !isCaption(one))) ? 0 : 1);
    const caption = part.title ?? over.slice(from).map(wordsOf).join(" ");
    return [{ table: part, caption: plain(caption), mayBeLeftOut: optional === true || (onePage && priority < 100) }];
  });
}

const isCaption = (part: Part) => part.kind === "paragraph" && part.style === "caption";
const isHeading = (part: Part | undefined) => part?.kind === "heading" && part.level > 1;
const wordsOf = (part: Part) =>
  part.kind === "heading" ? part.text : part.kind === "paragraph" ? `${part.lead ?? ""} ${part.text}` : "";
const plain = (text: string) => text.replace(/\s+/g, " ").trim();

/** What the tables of a file say otherwise than the sheet's content: words, heads or captions of a cell. */
export function contentFaults(sheet: Sheet, read: readonly ReadTable[]): readonly string[] {
  const faults: string[] = [];
  let next = 0;
  for (const { table, caption, mayBeLeftOut } of wantedTables(sheet)) {
    const found = read[next];
    const own = table.rows.map((row) => row.map((cell) => plain(said(cell))));
    const same = JSON.stringify(found?.rows.map((row) => row.map(({ text }) => text))) === JSON.stringify(own);
    if (!same && mayBeLeftOut) continue;
    next++;
    if (!same) faults.push(`"${caption}": other cells than ${JSON.stringify(own)}`);
    if ((found?.caption ?? "") !== caption) faults.push(`"${caption}": captioned "${found?.caption}"`);
    found?.rows.forEach((row, r) => {
      row.forEach((cell, c) => {
        if (cell.text !== "") faults.push(...headFaults(table, cell, r, c).map((fault) => `"${caption}": ${fault}`));
      });
    });
  }
  return next === read.length ? faults : [...faults, `${read.length - next} tables that the content has not`];
}

const said = ({ text, plusMinus = "", markLabel = "" }: TableCell) => `${text} ${plusMinus} ${markLabel}`;

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
