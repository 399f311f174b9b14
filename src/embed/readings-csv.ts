import type { Figures, SampleFigures, SetSideFigures } from "../figures/figures.ts";
import { type DisplayUnits, SIDES } from "../model/model.ts";
import { fromSi } from "../units/convert.ts";
import { csv, number, text } from "./csv.ts";

/** The readings as a table for a spreadsheet, one row a reading, in the units in which the job prints. */
export function readingsCsv({ stages, sample }: Figures, units: DisplayUnits): string {
  if (sample) return sampleCsv(sample, units);
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
  return csv([head, ...rows]);
}

/** Of a product, what its samples did at each lift. */
function sampleCsv(sample: SampleFigures, units: DisplayUnits): string {
  const flows = ["mean", "lowest", "highest"].map((what) => `${what} flow (${units.flow})`);
  const head = ["side", `lift (${units.length})`, "heads measured", ...flows];
  const flow = (value: number) => number(fromSi(value, "flow", units.flow));
  const rows = SIDES.flatMap((side) =>
    (sample[side]?.readings ?? []).map((reading) => [
      side,
      number(fromSi(reading.lift_m, "length", units.length)),
      String(reading.n),
      ...[reading.mean_m3_s, reading.low_m3_s, reading.high_m3_s].map(flow),
    ]),
  );
  return csv([head, ...rows]);
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
