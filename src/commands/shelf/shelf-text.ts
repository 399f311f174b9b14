import { columnsOfText as columns, visibleText } from "../../diagnostics/visible.ts";
import { type DisplayUnits, SIDES, type Side } from "../../model/model.ts";
import { wrapText } from "../fit-width.ts";
import { type SideCells, shelfNote, sideCells } from "./shelf-cells.ts";
import { isSound, type ShelfEntry, type SoundEntry } from "./shelf-entry.ts";

type Column = {
  readonly key: "job" | "head" | "side" | Exclude<keyof SideCells, "count" | "size">;
  readonly title: string;
  readonly left?: true;
};
const COLUMNS: readonly Column[] = [
  { key: "job", title: "job", left: true },
  { key: "head", title: "head", left: true },
  { key: "side", title: "", left: true },
  { key: "valve", title: "valve" },
  { key: "peak", title: "peak" },
  { key: "lift", title: "at lift" },
  { key: "low", title: "low" },
  { key: "mid", title: "mid" },
  { key: "high", title: "high" },
  { key: "coefficient", title: "C¼" },
  { key: "pinch", title: "pinch" },
  { key: "change", title: "change", left: true },
];
/** Columns dropped on a narrow terminal, in this order; numbers are never truncated. */
const DROP_ORDER: readonly (readonly Column["key"][])[] = [
  ["low", "mid", "high"],
  ["pinch"],
  ["coefficient"],
  ["lift"],
  ["change"],
];
const GAP = "  ";
/** Sentences are not set wider than this. */
const MOST_COLUMNS = 120;
/** Least width of a head's name before a column is dropped. */
const MIN_NAME = 14;

/** One text a column. */
type Cells = readonly string[];

/** The two rows of a job. */
function rowsOf(entry: SoundEntry, units: DisplayUnits): readonly [Cells, Cells] {
  const under = [entry.kind === "product" ? "product" : entry.stage, entry.material].filter(Boolean).join(", ");
  const sides = SIDES.filter((side) => entry[side]);
  const row = (job: string, head: string, side: Side | undefined): Cells => {
    const cells = side && sideCells(entry, side, units);
    return COLUMNS.map(({ key }) => {
      switch (key) {
        case "job":
          return visibleText(job);
        case "head":
          return visibleText(head);
        case "side":
          return side ?? "";
        default:
          return cells?.[key] ?? "";
      }
    });
  };
  return [row(entry.number, entry.head, sides[0]), row(entry.issued, under, sides[1])];
}

/** Formats the shelf for a terminal of that width: two lines a job, intake and exhaust. */
export function formatShelf(
  entries: readonly ShelfEntry[],
  units: DisplayUnits,
  testPressure: number,
  width = Number.POSITIVE_INFINITY,
): string {
  const rows = entries.filter(isSound).flatMap((entry) => rowsOf(entry, units));
  const widths = widthsOf(rows);
  const dropped: Column["key"][] = [];
  let shown = COLUMNS;
  for (const group of DROP_ORDER) {
    if (tableWidth(shown, widths, MIN_NAME) <= width) break;
    dropped.push(...group);
    shown = COLUMNS.filter(({ key }) => !dropped.includes(key));
  }
  const listed = [
    ...shelfNote(testPressure, units).flatMap((note) => wrapText(note, Math.min(width, MOST_COLUMNS))),
    ...(dropped.length > 0
      ? wrapText(
          `Left out on this narrow terminal: ${dropped.map(titleOf).join(", ")}; --csv has all.`,
          Math.min(width, MOST_COLUMNS),
        )
      : []),
    "",
    ...table(shown, rows, widths, width),
  ];
  const lines = [
    ...(rows.length > 0 ? listed : ["No job to show."]),
    ...refusedLines(
      entries.filter((entry) => !isSound(entry)).map(formatRefused),
      width === Number.POSITIVE_INFINITY ? width : MAX_REFUSED_LINES,
    ),
  ];
  return `${lines.join("\n")}\n`;
}

const titleOf = (key: Column["key"]) => COLUMNS.find((column) => column.key === key)!.title;

type Widths = Readonly<Record<Column["key"], number>>;

/** Terminal columns of a cell; the characters of a number are one column each. */
const columnsOf = (text: string, { left }: Column): number => (left ? columns(text) : text.length);

function widthsOf(rows: readonly Cells[]): Widths {
  const most = COLUMNS.map(({ title }) => columns(title));
  for (const cells of rows)
    for (let k = 0; k < cells.length; k++) {
      const wide = columnsOf(cells[k]!, COLUMNS[k]!);
      if (wide > most[k]!) most[k] = wide;
    }
  return Object.fromEntries(COLUMNS.map(({ key }, k) => [key, most[k]])) as Widths;
}

const tableWidth = (shown: readonly Column[], widths: Widths, name: number): number =>
  shown.reduce(
    (sum, { key }) => sum + (key === "head" ? Math.min(name, widths[key]) : widths[key]),
    GAP.length * (shown.length - 1),
  );

function table(shown: readonly Column[], rows: readonly Cells[], most: Widths, width: number): string[] {
  const room = Math.max(MIN_NAME, width - tableWidth(shown, most, 0));
  const places = shown.map((column) => ({
    column,
    at: COLUMNS.indexOf(column),
    wide: column.key === "head" ? Math.min(most[column.key], room) : most[column.key],
  }));
  const line = (cells: Cells) =>
    places
      .map(({ column, at, wide }) => {
        const text = column.key === "head" ? truncateText(cells[at]!, wide) : cells[at]!;
        const blanks = " ".repeat(Math.max(0, wide - columnsOf(text, column)));
        return column.left ? text + blanks : blanks + text;
      })
      .join(GAP)
      .trimEnd();
  return [COLUMNS.map(({ title }) => title), ...rows].map(line);
}

/** Truncates a name, marked by an ellipsis. */
function truncateText(text: string, width: number): string {
  if (columns(text) <= width) return text;
  let truncated = "";
  for (const character of text) {
    if (columns(truncated + character) > width - 1) break;
    truncated += character;
  }
  return `${truncated}…`;
}

/** Upper limit of refused jobs listed on a terminal. */
const MAX_REFUSED_LINES = 10;

const formatRefused = ({ file, refused }: ShelfEntry): string =>
  visibleText(`${file}${refused?.line === undefined ? "" : `:${refused.line}`}: ${refused?.text}`);

function refusedLines(lines: readonly string[], most: number): string[] {
  if (lines.length === 0) return [];
  const more = lines.length > most ? [`  and ${lines.length - most} more: --csv has all`] : [];
  return ["", "refused, with the first fault:", ...lines.slice(0, most).map((line) => `  ${line}`), ...more];
}
