import { fromSi, toSi } from "../../units/convert.ts";
import { cubicMetresPerSecond } from "../../units/quantity.ts";
import { NO_FLOW } from "../constants.ts";
import { sameLift } from "../math/lifts.ts";
import { exceeds } from "../math/limits.ts";
import { curveAt, pchipSlopes } from "../math/pchip.ts";
import { readingToReference } from "../sweep/reading-to-reference.ts";
import type { MeanReading } from "../sweep/sweep.ts";
import { type Finding, readingName, type SideCheckInput, type SideRule } from "./check-input.ts";

const LIMIT = 0.05;
/** At the ends of a sweep the extrapolated trend is less certain, so the limit is wider. */
const LIMIT_AT_ENDS = 0.1;
const PROPOSAL_TOLERANCE = 0.015;
/** Neighbours further apart than this, in lift ÷ diameter, do not determine a trend to 5 %. */
const NEIGHBOUR_DISTANCE = 0.13;

type TrendDeviation = {
  readonly reading: MeanReading;
  readonly trend: number;
  readonly share: number;
  readonly sure: boolean;
};

/**
 * A reading more than 5 % off the trend of its neighbours. Of several the worst is reported first and then removed, so that
 * it does not affect the trend of its neighbours. At the ends of a sweep, or where neighbours lie far apart, only a reading
 * that a typing error would explain is reported.
 * @source common practice
 */
export const offTrend: SideRule = (input) => {
  const found: Finding[] = [];
  let left = input.sweep.good.filter((reading) => reading.flow > NO_FLOW);
  while (left.length > 2) {
    const misses = left.flatMap((reading): (TrendDeviation & { readonly proposal?: number })[] => {
      const miss = deviationFromTrend(input, left, reading);
      if (miss === undefined || !exceeds(miss.share, miss.sure ? LIMIT : LIMIT_AT_ENDS)) return [];
      const proposal = likelyValue(input, miss);
      return miss.sure || proposal !== undefined ? [{ ...miss, proposal }] : [];
    });
    if (misses.length === 0) break;
    const worst = misses.reduce((one, other) => (logDeviation(other) > logDeviation(one) ? other : one));
    found.push(trendFinding(input, worst));
    left = left.filter((reading) => reading !== worst.reading);
  }
  return found;
};

/** Twice and half the trend are equally far from it. */
const logDeviation = ({ reading, trend }: TrendDeviation) => Math.abs(Math.log(reading.flow / trend));

/** Flow ÷ lift is smoother than flow, so the trend is taken in it. */
function deviationFromTrend(
  { diameter }: SideCheckInput,
  all: readonly MeanReading[],
  reading: MeanReading,
): TrendDeviation | undefined {
  const k = all.indexOf(reading);
  const others = all.filter((other) => other !== reading);
  const x = others.map((other) => other.lift);
  const y = others.map((other) => other.flow / other.lift);
  const inside = k > 0 && k < all.length - 1;
  const perLift = inside ? curveAt({ x, y, d: pchipSlopes(x, y) }, reading.lift) : extrapolate(x, y, reading.lift);
  if (perLift === undefined || !(perLift * reading.lift > NO_FLOW)) return undefined;
  const trend = perLift * reading.lift;
  const scale = diameter ?? 4 * all[all.length - 1]!.lift;
  const sure = inside && !exceeds((all[k + 1]!.lift - all[k - 1]!.lift) / scale, NEIGHBOUR_DISTANCE);
  return { reading, trend, share: Math.abs(reading.flow / trend - 1), sure };
}

/** Beyond either end: level below the first, straight on above the last. */
function extrapolate(x: readonly number[], y: readonly number[], at: number): number {
  if (at < x[0]!) return y[0]!;
  const last = x.length - 1;
  return y[last]! + ((y[last]! - y[last - 1]!) / (x[last]! - x[last - 1]!)) * (at - x[last]!);
}

/** What was probably meant, in the unit of the sheet, when a typing error explains the reading. */
function likelyValue({ sweep, model, set }: SideCheckInput, { reading, trend }: TrendDeviation): number | undefined {
  if (set.bench.reads === "percent") return undefined;
  const point = sweep.points.find((one) => sameLift(one.lift, reading.lift));
  if (point?.reading.flow === undefined) return undefined;
  const { flow: unit } = model.units;
  const digit = point.reading.resolution === undefined ? 0.1 : fromSi(point.reading.resolution, "flow", unit);
  const decimals = Math.min(6, Math.max(0, Math.round(-Math.log10(digit))));
  const near = mistypings(fromSi(point.reading.flow, "flow", unit), decimals)
    .map((value) => {
      const typed = cubicMetresPerSecond(toSi(value, "flow", unit));
      const flow = readingToReference(
        typed,
        point.run.bench,
        sweep.source.side,
        point.reading.pressure,
        model.reference,
      );
      return { value, miss: Math.abs(flow / trend - 1) };
    })
    .filter(({ miss }) => !exceeds(miss, PROPOSAL_TOLERANCE))
    .sort((a, b) => a.miss - b.miss);
  return near[0]?.value;
}

function trendFinding(
  input: SideCheckInput,
  { reading, trend, share, proposal }: TrendDeviation & { readonly proposal?: number },
): Finding {
  const side = reading.flow > trend ? "above" : "below";
  const at = input.sweep.points.find((point) => sameLift(point.lift, reading.lift))?.reading.at;
  const meant = proposal === undefined ? undefined : input.format.flow(toSi(proposal, "flow", input.model.units.flow));
  return {
    code: "figures/off-trend",
    message: `${readingName(input, reading.lift, reading.flow)} lies ${input.format.percent(share)} ${side} the trend of its neighbours`,
    hint: meant === undefined ? "misread, mistyped, or a lift set wrong: measure it again" : `did you mean ${meant}?`,
    ...(at === undefined ? {} : { at }),
  };
}

/**
 * Numbers that a typing error may have turned into this one: two neighbouring digits swapped, or the decimal point lost or moved
 * by one place.
 *
 *     swap each pair of neighbouring digits; × 10; ÷ 10
 *
 * @param value     the number as typed, 0 or greater
 * @param decimals  decimals with which it was typed
 * @returns         the candidates, none equal to the number itself
 * @source          common practice: usual slips when numbers are typed or read from paper
 * @example         mistypings(131.5, 1) // [311.5, 113.5, 135.1, 1315, 13.15]
 */
export function mistypings(value: number, decimals: number): number[] {
  const digits = value.toFixed(decimals).replace(".", "");
  const swapped = [...digits].slice(1).map((_, k) => {
    const other = digits.slice(0, k) + digits[k + 1] + digits[k] + digits.slice(k + 2);
    return Number(other) / 10 ** decimals;
  });
  return [...swapped, value * 10, value / 10].filter((candidate) => candidate !== value);
}
