import type { Figures, ReadingFigures, SampleFigures, SetSideFigures, TypedReading } from "../figures/figures.ts";
import { type DisplayUnits, SIDES } from "../model/model.ts";
import { fromSi } from "../units/convert.ts";
import { sameLift } from "../units/same-lift.ts";
import { escapeFormula, formatCsv, formatNumber } from "./csv.ts";

/**
 * Formats the readings as CSV in the display units of the job: at each lift the row of the sheet's table, `mean` or
 * `single`, then every other reading as it was `typed`.
 */
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
    "row",
    "cylinder",
    "hand",
    "mount",
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

/** One side's rows, ascending; the columns after set and side. */
function readingRows(side: SetSideFigures | undefined, units: DisplayUnits): string[][] {
  if (!side) return [];
  const flow = (value: number | undefined) =>
    value === undefined ? "" : formatNumber(fromSi(value, "flow", units.flow));
  const lift = (value: number) => formatNumber(fromSi(value, "length", units.length));
  const tableRow = (reading: ReadingFigures, of: readonly TypedReading[]) => [
    lift(reading.lift_m),
    flow(reading.flow_m3_s),
    flow(reading.uncertainty_m3_s),
    String(reading.repeats),
    reading.doubtful ? "doubtful" : reading.partial ? "not of all cylinders" : reading.noisy ? "noisy" : "",
    ...(of.length === 1
      ? ["single", ...portCells(of[0]!)]
      : ["mean", (reading.of_cylinders ?? []).join(" "), escapeFormula(side.hand ?? ""), ""]),
  ];
  const typedRow = (one: TypedReading) => [
    lift(one.lift_m),
    flow(one.flow_m3_s),
    "",
    "",
    one.kind === "good" ? "" : one.kind,
    "typed",
    ...portCells(one),
  ];
  const typed = side.typed.filter(({ kind }) => kind !== "missing");
  const inTable = side.readings.map((reading) => ({
    reading,
    of: typed.filter((one) => isPartOf(one, reading, side)),
  }));
  const alone = new Set(inTable.flatMap(({ of }) => (of.length === 1 ? of : [])));
  const rows = [
    ...inTable.map(({ reading, of }) => ({ at: reading.lift_m, cells: tableRow(reading, of) })),
    ...typed.filter((one) => !alone.has(one)).map((one) => ({ at: one.lift_m, cells: typedRow(one) })),
    ...side.left_out.flatMap(({ kind, lift_m, cylinder, hand = "" }) =>
      kind === "missing"
        ? [
            {
              at: lift_m,
              cells: [lift(lift_m), "", "", "", kind, "typed", String(cylinder ?? ""), escapeFormula(hand), ""],
            },
          ]
        : [],
    ),
  ];
  return rows.sort((a, b) => (sameLift(a.at, b.at) ? 0 : a.at - b.at)).map(({ cells }) => cells);
}

/** Whether a typed reading is one of those of which a row of the table is the mean. */
const isPartOf = (one: TypedReading, reading: ReadingFigures, { hand }: SetSideFigures): boolean =>
  sameLift(one.lift_m, reading.lift_m) &&
  one.hand === hand &&
  (reading.of_cylinders ?? []).includes(one.cylinder) &&
  (reading.doubtful ? one.kind === "doubtful" : one.kind === "good" || one.kind === "noisy");

const portCells = ({ cylinder, hand = "", mount }: TypedReading): string[] => [
  String(cylinder),
  escapeFormula(hand),
  String(mount),
];
