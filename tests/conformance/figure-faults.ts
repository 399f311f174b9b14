import type { Figures, SideFigures, StageFigures } from "../../src/figures/figures.ts";
import { type DisplayUnits, SIDES, type Side } from "../../src/model/model.ts";
import { differenceFromSi, fromSi } from "../../src/units/convert.ts";
import type { ReadCell, ReadTable } from "./read-tables.ts";

/** What one number of a table of flows is, by its heads alone: the head over its stage or the caption names the side. */
type Place = { readonly side: Side; readonly column: string; readonly row: string };
/** A printed number, and the one that the figures have for it. */
type Shown = readonly [printed: string, wanted: number | undefined];

/** Numbers of the tables of flows, put back into figures: how many were looked up, and those that are none. */
export function figureFaults(figures: Figures, units: DisplayUnits, read: readonly ReadTable[]) {
  const shown = read.flatMap(({ caption = "", rows }) =>
    rows.flat().flatMap((cell) => {
      const place = placeOf(cell, caption);
      return place && /\d/.test(cell.text) ? numbersOf(cell.text, place, figures, units) : [];
    }),
  );
  const faults = shown.filter(([printed, wanted]) => !isShown(printed, wanted));
  return { count: shown.length, faults };
}

function placeOf({ column, row, isHead }: ReadCell, caption: string): Place | undefined {
  const named = [caption, ...column.slice(0, -1)];
  const side = SIDES.find((one) => named.some((text) => new RegExp(`^${one} \\(`, "i").test(text)));
  // The row of the cam stands between readings.
  return side && !isHead && /\d/.test(row[0] ?? "") ? { side, column: column.at(-1)!, row: row[0] ?? "" } : undefined;
}

function numbersOf(text: string, place: Place, figures: Figures, units: DisplayUnits): readonly Shown[] {
  const { side, column, row } = place;
  const flow = (si: number | undefined) => (si === undefined ? undefined : fromSi(si, "flow", units.flow));
  const isHere = ({ lift_m }: { readonly lift_m: number }) =>
    Math.abs(fromSi(lift_m, "length", units.length) - numberIn(row)) < 0.0006;
  const own = figures.stages.filter(({ repeats }) => repeats === undefined);
  const last = flowed(own, side).at(-1);
  const sample = figures.sample?.[side]?.readings.find(isHere);
  if (sample) {
    const [low = "", high = ""] = text.split("–");
    return column === "range"
      ? [
          [low, flow(sample.low_m3_s)],
          [high, flow(sample.high_m3_s)],
        ]
      : [[text, column === "mean" ? flow(sample.mean_m3_s) : undefined]];
  }
  if (column === "Average" || column === "Peak") {
    const cylinder = last?.cylinders.find((one) => `${one.cylinder}${one.hand ? ` ${one.hand}` : ""}` === row);
    return [[text, flow(column === "Peak" ? cylinder?.peak_flow_m3_s : cylinder?.mean_flow_m3_s)]];
  }
  const stage = figures.stages.find(({ name }) => name === column);
  if (stage) return [[text, flow(flowed([stage], side)[0]?.readings.find(isHere)?.flow_m3_s)]];
  return changesOf(text, place, last?.readings.find(isHere)?.uncertainty_m3_s, { figures, units, own, isHere });
}

const flowed = (stages: readonly StageFigures[], side: Side): readonly SideFigures[] =>
  stages.flatMap((stage) => (stage[side] && stage[side].readings.length > 0 ? [stage[side]] : []));

/** A change, its ± in a column beside it or in the same cell; without a stage to compare with, the ± of the reading. */
function changesOf(
  text: string,
  { side, column }: Place,
  ofReading: number | undefined,
  {
    figures,
    units,
    own,
    isHere,
  }: {
    readonly figures: Figures;
    readonly units: DisplayUnits;
    readonly own: readonly StageFigures[];
    readonly isHere: (one: { readonly lift_m: number }) => boolean;
  },
): readonly Shown[] {
  const pair = figures.comparisons.find(
    ({ side: of, from, to }) =>
      of === side && !from.label && !to.label && from.stage === own[0]?.name && to.stage === own.at(-1)?.name,
  );
  const change = pair?.changes.find(isHere);
  const difference = (si: number | undefined) =>
    si === undefined ? undefined : differenceFromSi(si, "flow", units.flow);
  const plusMinus = difference(pair ? change?.uncertainty_m3_s : ofReading);
  if (column === "±") return [[text, plusMinus]];
  const [changed = "", beside] = text.split("±");
  const first: Shown = [changed, difference(change?.change_m3_s)];
  return beside === undefined ? [first] : [first, [beside, plusMinus]];
}

/** The first number in a text, its minus a true one or not. */
const numberIn = (text: string) => Number(/[+−-]?\d+(\.\d+)?/.exec(text)?.[0].replace("−", "-") ?? Number.NaN);

/** Whether a printed number is that figure, rounded to its last digit. */
function isShown(printed: string, wanted: number | undefined): boolean {
  if (wanted === undefined) return false;
  const decimals = /\.(\d+)/.exec(printed)?.[1]?.length ?? 0;
  return Math.abs(numberIn(printed) - wanted) <= 0.5 * 10 ** -decimals * (1 + 1e-9);
}
