import type { Model } from "../../model/model.ts";
import { mistypings } from "../../units/mistypings.ts";
import { cubicMetresPerSecond } from "../../units/quantity.ts";
import { exceeds } from "../math/limits.ts";
import { measuredPorts } from "../sweep/full-ports.ts";
import type { Point } from "../sweep/point.ts";
import { readingToReference } from "../sweep/reading-to-reference.ts";
import type { Sweep } from "../sweep/sweep.ts";
import { type Spot, spotsOf, trendAt, withoutPoint } from "./trend.ts";

const LIMIT = 0.05;
/** At the ends of a sweep the extrapolated trend is less certain, so the limit is wider. */
const LIMIT_AT_ENDS = 0.1;
/** So far off the level line below the first neighbour is not. */
const FAR_OFF = 0.5;
const PROPOSAL_TOLERANCE = 0.015;
/** Neighbours further apart than this, in lift ÷ diameter, do not determine a trend to 5 %. */
const NEIGHBOUR_DISTANCE = 0.13;
/** Of longer sweeps the reading furthest off is taken for the wrong one without trying each. */
const MOST_TRIED = 40;

/** A reading off the trend of its neighbours, and the number that was probably typed for it. */
export type Deviation = {
  readonly point: Point;
  readonly trend: number;
  readonly share: number;
  readonly sure: boolean;
  readonly meant?: string;
};

type TrendInput = {
  readonly model: Model;
  readonly sweep: Sweep;
  /** Valve diameter [m]. */
  readonly diameter?: number;
};

/**
 * Every reading off the trend, port by port. Of several at once the one is wrong without which the others agree best.
 *
 *     |Q ÷ trend − 1| > 5 %, at the ends of a sweep 10 %
 *
 * @param input  the sweep, the model, and the valve's diameter if known
 * @returns      the readings, each with its trend
 * @source       common practice
 * @example      findDeviations({ sweep: { points: [] } }) // []
 */
export function findDeviations(input: TrendInput): readonly Deviation[] {
  return measuredPorts(input.sweep.points).flatMap((port) => {
    const found: Deviation[] = [];
    let left = spotsOf(input.sweep.points.filter((point) => point.port === port));
    while (left.length > 2) {
      const misses = offTrendPoints(input, left);
      if (misses.length === 0) break;
      const wrong = mostLikelyError(input, left, misses);
      found.push(wrong);
      left = withoutPoint(left, wrong.point);
    }
    return found;
  });
}

function offTrendPoints(input: TrendInput, spots: readonly Spot[]): readonly Deviation[] {
  return spots.flatMap((spot, k): Deviation[] => {
    const trend = trendAt(spots, spot.lift);
    if (trend === undefined) return [];
    const scale = input.diameter ?? 4 * spots.at(-1)!.lift;
    const inside = k > 0 && k < spots.length - 1;
    const sure = inside && !exceeds((spots[k + 1]!.lift - spots[k - 1]!.lift) / scale, NEIGHBOUR_DISTANCE);
    const worst = spot.points.reduce((one, other) => (away(other, trend) > away(one, trend) ? other : one));
    const share = Math.abs(worst.flow / trend - 1);
    if (!exceeds(share, sure ? LIMIT : LIMIT_AT_ENDS)) return [];
    const meant = likelyText(input, worst, trend);
    return sure || exceeds(share, FAR_OFF) || meant !== undefined
      ? [{ point: worst, trend, share, sure, ...(meant && { meant }) }]
      : [];
  });
}

/** Twice and half the trend are equally far from it. */
const away = ({ flow }: { readonly flow: number }, trend: number) => Math.abs(Math.log(flow / trend));

/** The miss without which the others lie nearest to their trends. */
function mostLikelyError(input: TrendInput, spots: readonly Spot[], misses: readonly Deviation[]): Deviation {
  const own = ({ point, trend }: Deviation) => away(point, trend);
  if (misses.length === 1 || spots.length > MOST_TRIED)
    return misses.reduce((one, other) => (own(other) > own(one) ? other : one));
  const left = misses.map((miss) =>
    offTrendPoints(
      input,
      spots.filter(({ points }) => !points.includes(miss.point)),
    ).reduce((sum, other) => sum + own(other), 0),
  );
  return misses.reduce((one, other, k) => {
    const [a, b] = [left[misses.indexOf(one)]!, left[k]!];
    return exceeds(a, b) || (!exceeds(b, a) && own(other) > own(one)) ? other : one;
  });
}

/** What was probably meant, as it would have been typed, when a slip of the hand explains the reading. */
function likelyText({ sweep, model }: TrendInput, { run, reading }: Point, trend: number): string | undefined {
  const digits = /^[\d.]+/.exec(reading.typed?.flow ?? "")?.[0] ?? "";
  if (reading.flow === undefined || !(Number(digits) > 0)) return undefined;
  const scale = reading.flow / Number(digits);
  const near = mistypings(digits)
    .map((text) => {
      const typed = cubicMetresPerSecond(Number(text) * scale);
      const flow = readingToReference(typed, run.bench, sweep.source.side, reading.pressure, model.reference);
      return { text, miss: Math.abs(flow / trend - 1) };
    })
    .filter(({ miss }) => !exceeds(miss, PROPOSAL_TOLERANCE))
    .sort((a, b) => a.miss - b.miss);
  return near[0]?.text;
}
