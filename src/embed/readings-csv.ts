import type { Figures, SampleFigures, SetSideFigures } from "../figures/figures.ts";
import { type DisplayUnits, SIDES } from "../model/model.ts";
import { fromSi } from "../units/convert.ts";
import { escapeFormula, formatCsv, formatNumber } from "./csv.ts";

/** Formats the readings as CSV, one row a reading, in the display units of the job. */
export function formatReadingsCsv({ stages, sample }: Figures, units: DisplayUnits): string {
  if (sample) return formatSampleCsv(sample, units);
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
      SIDES.flatMap((side) =>
        readingRows(set[side], units).map((row) => [escapeFormula(stage.name), escapeFormula(set.name), side, ...row]),
      ),
    );
  });
  return formatCsv([head, ...rows]);
}

/** Formats mean, lowest and highest flow of a product's samples at each lift. */
function formatSampleCsv(sample: SampleFigures, units: DisplayUnits): string {
  const flows = ["mean", "lowest", "highest"].map((what) => `${what} flow (${units.flow})`);
  const head = ["side", `lift (${units.length})`, "heads measured", ...flows];
  const flow = (value: number) => formatNumber(fromSi(value, "flow", units.flow));
  const rows = SIDES.flatMap((side) =>
    (sample[side]?.readings ?? []).map((reading) => [
      side,
      formatNumber(fromSi(reading.lift_m, "length", units.length)),
      String(reading.n),
      ...[reading.mean_m3_s, reading.low_m3_s, reading.high_m3_s].map(flow),
    ]),
  );
  return formatCsv([head, ...rows]);
}

function readingRows(side: SetSideFigures | undefined, units: DisplayUnits): string[][] {
  if (!side) return [];
  const flow = (value: number | undefined) =>
    value === undefined ? "" : formatNumber(fromSi(value, "flow", units.flow));
  const lift = (value: number) => formatNumber(fromSi(value, "length", units.length));
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
