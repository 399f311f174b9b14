import { columnsOfText as columns, visible } from "../../diagnostics/visible.ts";
import { type DisplayUnits, SIDES } from "../../model/model.ts";
import { type SideCells, shelfNote, sideCells } from "./shelf-cells.ts";
import { isSound, type ShelfEntry } from "./shelf-entry.ts";

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
const GAP = 2;
/** The least that is left of a head's name before a column gives way. */
const NAME = 14;

type Row = Readonly<Record<Column["key"], string>>;

/** The shelf as a table for a terminal of that width: two lines a job, intake and exhaust. */
export function shelfText(
  entries: readonly ShelfEntry[],
  units: DisplayUnits,
  testPressure: number,
  width = Number.POSITIVE_INFINITY,
): string {
  const rows = entries.flatMap((entry) => rowsOf(entry, units));
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
    ...refusedLines(entries, width === Number.POSITIVE_INFINITY ? width : REFUSED_ON_TERMINAL),
  ];
  return `${lines.join("\n")}\n`;
}

const titleOf = (key: Column["key"]) => COLUMNS.find((column) => column.key === key)!.title;

function rowsOf(entry: ShelfEntry, units: DisplayUnits): Row[] {
  if (!isSound(entry)) return [];
  const under = [entry.kind === "product" ? "product" : entry.stage, entry.material].filter(Boolean).join(", ");
  const sides = SIDES.flatMap((side) => {
    const cells = sideCells(entry, side, units);
    return cells ? [{ side, ...cells }] : [];
  });
  const [first = { side: "" }, second] = sides;
  const row = (job: string, head: string, cells: Partial<Row>): Row => {
    const filled = { ...NOTHING };
    for (const { key } of COLUMNS) filled[key] = cells[key] ?? "";
    filled.job = job;
    filled.head = visible(head);
    return filled;
  };
  return [row(visible(entry.number), entry.head, first), row(entry.issued, under, second ?? {})];
}

const NOTHING = Object.fromEntries(COLUMNS.map(({ key }) => [key, ""])) as Record<Column["key"], string>;

type Widths = Readonly<Record<Column["key"], number>>;

const widthsOf = (rows: readonly Row[]): Widths =>
  Object.fromEntries(
    COLUMNS.map(({ key, title }) => [
      key,
      rows.reduce((most, row) => Math.max(most, columns(row[key])), columns(title)),
    ]),
  ) as Widths;

const needed = (shown: readonly Column[], widths: Widths, name: number): number =>
  shown.reduce(
    (sum, { key }) => sum + (key === "head" ? Math.min(name, widths[key]) : widths[key]),
    GAP * (shown.length - 1),
  );

function table(shown: readonly Column[], rows: readonly Row[], most: Widths, width: number): string[] {
  const head = shown.findIndex(({ key }) => key === "head");
  const room = Math.max(NAME, width - needed(shown, most, 0));
  const widths = shown.map(({ key }, k) => (k === head ? Math.min(most[key], room) : most[key]));
  const cell = (text: string, k: number) => {
    const kept = k === head ? cut(text, widths[k]!) : text;
    const blanks = " ".repeat(Math.max(0, widths[k]! - columns(kept)));
    return shown[k]!.left ? kept + blanks : blanks + kept;
  };
  const line = (texts: readonly string[]) => texts.map(cell).join(" ".repeat(GAP)).trimEnd();
  return [line(shown.map(({ title }) => title)), ...rows.map((row) => line(shown.map(({ key }) => row[key])))];
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

function refusedLines(entries: readonly ShelfEntry[], most: number): string[] {
  const lines = entries.flatMap(({ file, refused }) =>
    refused ? [visible(`${file}${refused.line === undefined ? "" : `:${refused.line}`}: ${refused.text}`)] : [],
  );
  if (lines.length === 0) return [];
  const more = lines.length > most ? [`  and ${lines.length - most} more: --csv has all`] : [];
  return ["", "refused, with the first fault:", ...lines.slice(0, most).map((line) => `  ${line}`), ...more];
}
