import type { Figures, SetSideFigures } from "../figures/figures.ts";
import { type DisplayUnits, SIDES } from "../model/model.ts";
import { fromSi } from "../units/convert.ts";

/** The readings as a table for a spreadsheet, one row a reading, in the units in which the job prints. */
export function figuresCsv({ stages }: Figures, units: DisplayUnits): string {
  const head = [
    "stage",
    "set",
    "side",
    `lift (${units.length})`,
    `flow (${units.flow})`,
    `plus or minus (${units.flow})`,
    "repeats",
    "mark",
  ];
  const rows = stages.flatMap((stage) => {
    const sets = [{ name: stage.set ?? "", intake: stage.intake, exhaust: stage.exhaust }, ...stage.sets];
    return sets.flatMap((set) =>
      SIDES.flatMap((side) => rowsOf(set[side], units).map((row) => [text(stage.name), text(set.name), side, ...row])),
    );
  });
  return [head, ...rows].map((row) => `${row.map(quoted).join(",")}\n`).join("");
}

function rowsOf(side: SetSideFigures | undefined, units: DisplayUnits): string[][] {
  if (!side) return [];
  const flow = (value: number | undefined) => (value === undefined ? "" : number(fromSi(value, "flow", units.flow)));
  const lift = (value: number) => number(fromSi(value, "length", units.length));
  const read = side.readings.map((reading) => ({
    at: reading.lift_m,
    cells: [
      lift(reading.lift_m),
      flow(reading.flow_m3_s),
      flow(reading.uncertainty_m3_s),
      String(reading.repeats),
      reading.doubtful ? "doubtful" : reading.noisy ? "noisy" : "",
    ],
  }));
  const out = side.left_out.map((left) => ({
    at: left.lift_m,
    cells: [lift(left.lift_m), flow(left.value_m3_s), "", "", left.kind],
  }));
  return [...read, ...out].sort((a, b) => a.at - b.at).map(({ cells }) => cells);
}

/** Six figures: more than any bench resolves, and free of binary dust. */
const number = (value: number): string => String(Number(value.toPrecision(6)));

/** A name that a spreadsheet would run as a formula is led by an apostrophe. */
const text = (name: string): string => (/^[=+\-@\t\r]/.test(name) ? `'${name}` : name);

const quoted = (cell: string): string => (/[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);
