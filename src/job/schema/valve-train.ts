import { z } from "zod";
import type { Metres, Pascals } from "../../units/quantity.ts";
import { key, keys } from "./keys.ts";
import { texts } from "./plain.ts";
import { quantity as q, transformWithUnits } from "./quantities.ts";
import { type Cells, readTextTable, type TableFault } from "./text-table.ts";

/** What a vacuum test may say in words. */
export const VACUUM_WORDS = ["held", "lost"] as const;
type VacuumWord = (typeof VACUUM_WORDS)[number];

/** One valve of the valve train; absent is what was not taken. `valve` is cylinder, side and letter, such as `2Ia`. */
export type ValveTrainRow = {
  readonly valve: string;
  readonly height?: Metres;
  readonly shim?: Metres;
  readonly tip?: Metres;
  readonly drop?: Metres;
  readonly guide?: Metres;
  readonly runout?: Metres;
  readonly seal?: Metres;
  readonly vacuum?: Pascals | VacuumWord;
};

/** The columns of the table, in the order in which they are written. */
export const VALVE_TRAIN_COLUMNS = {
  valve: { kind: "words" },
  height: { kind: "length", gaps: true },
  shim: { kind: "length", sign: "zero or more", gaps: true },
  tip: { kind: "length", gaps: true },
  drop: { kind: "length", sign: "any", gaps: true },
  guide: { kind: "length", gaps: true },
  runout: { kind: "length", sign: "zero or more", gaps: true },
  vacuum: { kind: "pressure", gaps: true, said: VACUUM_WORDS },
  seal: { kind: "length", gaps: true },
} as const;

const VALVE = /^(\d{1,2})([ie])([a-e])?$/i;

/** Cylinder, side and letter of a valve's name in the table; undefined where it is none. */
export function parseValveName(
  typed: string,
): { readonly cylinder: number; readonly side: "intake" | "exhaust"; readonly letter: string } | undefined {
  const match = VALVE.exec(typed);
  if (!match || Number(match[1]) === 0) return undefined;
  const side = match[2]!.toLowerCase() === "i" ? "intake" : "exhaust";
  return { cylinder: Number(match[1]), side, letter: (match[3] ?? "").toLowerCase() };
}

/** The table `valve_train`: one row a valve, in any order. */
export const valveTrainTable = () =>
  transformWithUnits(
    z.string().meta({
      description:
        "Table, one row a valve (1I, 1E, 2Ia): height, shim, tip, drop, guide, runout, vacuum, seal; `-` was not taken",
    }),
    (text, units, context): readonly ValveTrainRow[] => {
      const { rows, names, faults } = readTextTable(text, VALVE_TRAIN_COLUMNS, units);
      const found = faults.length > 0 ? faults : [...findNameFaults(text, rows, names)];
      for (const { message, ...params } of found) context.addIssue({ code: "custom", message, params });
      return found.length > 0 ? z.NEVER : rows.map(toRow);
    },
  ).meta({ form: { table: "valveTrain" } });

const toRow = ({ valve, ...cells }: Cells): ValveTrainRow => {
  const { cylinder, side, letter } = parseValveName(valve?.words ?? "")!;
  const values = Object.entries(cells).map(([name, cell]) => [name, cell.value ?? cell.words]);
  return { valve: `${cylinder}${side === "intake" ? "I" : "E"}${letter}`, ...Object.fromEntries(values) };
};

/** Rows need a valve's name of their own. */
function findNameFaults(text: string, rows: readonly Cells[], names: readonly string[]): readonly TableFault[] {
  const start = text.length - text.trimStart().length;
  const lineEnd = text.indexOf("\n", start);
  const head = { start, end: lineEnd < 0 ? text.length : lineEnd };
  if (!names.includes("valve"))
    return [{ code: "job/table-column", message: "a table of the valve train needs a column `valve`", ...head }];
  const seen = new Set<string>();
  return rows.flatMap(({ valve }): TableFault[] => {
    const typed = valve?.words ?? "";
    const at = { start: valve?.at.start ?? head.start, end: valve?.at.end ?? head.end };
    const hint = "write cylinder and side, such as 1I or 2E, with a letter for twin valves (2Ia)";
    const name = parseValveName(typed);
    if (!name) return [{ code: "job/valve-name", message: `\`${typed}\` names no valve`, hint, ...at }];
    const own = `${name.cylinder}${name.side}${name.letter}`;
    if (seen.has(own)) return [{ code: "job/valve-twice", message: `the valve \`${typed}\` has two rows`, ...at }];
    seen.add(own);
    return [];
  });
}

const range = (what: string, example: string) =>
  z
    .array(q.force.of(`${what}: least and most`, example))
    .length(2)
    .meta({ description: `${what}: least and most` });

/** The shop's own limits; what they leave out is not judged. */
export const valveTrainLimitsSchema = () =>
  keys({
    alike: key(true, q.length.of("A value further off the median of its row is boxed", 0.005)),
    guide: key(true, q.length.of("Most clearance of stem to guide", 0.0025)),
    runout: key(true, q.length.of("Most runout of seat to guide", 0.0015)),
    seat_force: key(true, range("Force on the seat", "80 lbf"), ["80 lbf", "90 lbf"]),
    open_force: key(true, range("Force at the set-up lift", "180 lbf"), ["180 lbf", "195 lbf"]),
    coil_bind: key(true, q.length.of("Least room to coil bind at the set-up lift", 0.05)),
    retainer_to_seal: key(true, q.length.of("Least room of retainer to seal at the set-up lift", 0.06)),
  }).meta({ description: "The shop's own limits of the valve train, and what counts as not alike" });

/** What was agreed about a value beyond a limit. */
export const agreedSchema = () => texts("What was agreed about a value beyond a limit");
