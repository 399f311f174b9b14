import { columnsOfText as columns, visible } from "../../diagnostics/visible.ts";
import { type DisplayUnits, SIDES, type Side } from "../../model/model.ts";
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
/** What gives way on a narrow terminal, first to last; numbers are never cut. */
const GIVE_WAY: readonly (readonly Column["key"][])[] = [
  ["low", "mid", "high"],
  ["pinch"],
  ["coefficient"],
  ["lift"],
  ["change"],
];
const BETWEEN = "  ";
/** The least that is left of a head's name before a column gives way. */
const NAME = 14;

/** The texts of a row, one a column. */
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
          return visible(job);
        case "head":
          return visible(head);
        case "side":
          return side ?? "";
        default:
          return cells?.[key] ?? "";
      }
    });
  };
  return [row(entry.number, entry.head, sides[0]), row(entry.issued, under, sides[1])];
}

/** The shelf as a table for a terminal of that width: two lines a job, intake and exhaust. */
export function shelfText(
  entries: readonly ShelfEntry[],
  units: DisplayUnits,
  testPressure: number,
  width = Number.POSITIVE_INFINITY,
): string {
  const rows = entries.filter(isSound).flatMap((entry) => rowsOf(entry, units));
  const widths = widthsOf(rows);
  const given: Column["key"][] = [];
  let shown = COLUMNS;
  for (const group of GIVE_WAY) {
    if (needed(shown, widths, NAME) <= width) break;
    given.push(...group);
    shown = COLUMNS.filter(({ key }) => !given.includes(key));
  }
  const listed = [
    ...shelfNote(testPressure, units).flatMap((note) => wrapped(note, width)),
    ...(given.length > 0
      ? wrapped(`Left out on this narrow terminal: ${given.map(titleOf).join(", ")}; --csv has all.`, width)
      : []),
    "",
    ...table(shown, rows, widths, width),
  ];
  const lines = [
    ...(rows.length > 0 ? listed : ["No job to show."]),
    ...refusedLines(
      entries.filter((entry) => !isSound(entry)).map(whyRefused),
      width === Number.POSITIVE_INFINITY ? width : REFUSED_ON_TERMINAL,
    ),
  ];
  return `${lines.join("\n")}\n`;
}

const titleOf = (key: Column["key"]) => COLUMNS.find((column) => column.key === key)!.title;

type Widths = Readonly<Record<Column["key"], number>>;

/** Terminal columns of a cell; a number takes one a character. */
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

const needed = (shown: readonly Column[], widths: Widths, name: number): number =>
  shown.reduce(
    (sum, { key }) => sum + (key === "head" ? Math.min(name, widths[key]) : widths[key]),
    BETWEEN.length * (shown.length - 1),
  );

function table(shown: readonly Column[], rows: readonly Cells[], most: Widths, width: number): string[] {
  const room = Math.max(NAME, width - needed(shown, most, 0));
  const places = shown.map((column) => ({
    column,
    at: COLUMNS.indexOf(column),
    wide: column.key === "head" ? Math.min(most[column.key], room) : most[column.key],
  }));
  const line = (cells: Cells) =>
    places
      .map(({ column, at, wide }) => {
        const text = column.key === "head" ? cut(cells[at]!, wide) : cells[at]!;
        const blanks = " ".repeat(Math.max(0, wide - columnsOf(text, column)));
        return column.left ? text + blanks : blanks + text;
      })
      .join(BETWEEN)
      .trimEnd();
  return [COLUMNS.map(({ title }) => title), ...rows].map(line);
}

/** A name may be cut, and says so. */
function cut(text: string, width: number): string {
  if (columns(text) <= width) return text;
  let kept = "";
  for (const character of text) {
    if (columns(kept + character) > width - 1) break;
    kept += character;
  }
  return `${kept}…`;
}

/** Sentences, broken between words. */
function wrapped(text: string, width: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && columns(last) + 1 + columns(word) <= Math.min(width, 120))
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** So many of those refused do not push the table off the terminal. */
const REFUSED_ON_TERMINAL = 10;

const whyRefused = ({ file, refused }: ShelfEntry): string =>
  visible(`${file}${refused?.line === undefined ? "" : `:${refused.line}`}: ${refused?.text}`);

function refusedLines(lines: readonly string[], most: number): string[] {
  if (lines.length === 0) return [];
  const more = lines.length > most ? [`  and ${lines.length - most} more: --csv has all`] : [];
  return ["", "refused, with the first fault:", ...lines.slice(0, most).map((line) => `  ${line}`), ...more];
}
