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
    const all = spotsOf(input.sweep.points.filter((point) => point.port === port));
    let left = all;
    while (left.length > 2) {
      const misses = offTrendPoints(input, left).filter(({ point }) => !isEndBesideGap(point.lift, all, left));
      if (misses.length === 0) break;
      const likely = mostLikelyError(input, left, misses);
      const wrong = likely.meant === undefined ? (neighbourSlip(input, left, likely) ?? likely) : likely;
      found.push(wrong);
      left = withoutPoint(left, wrong.point);
    }
    return found;
  });
}

/** Whether a lift is the first or last, and its neighbour was left out: what lies beyond a gap has no trend of its own. */
function isEndBesideGap(lift: number, all: readonly Spot[], left: readonly Spot[]): boolean {
  const isLeft = (spot: Spot | undefined) => spot === undefined || left.some((one) => one.lift === spot.lift);
  return (lift === all[0]?.lift && !isLeft(all[1])) || (lift === all.at(-1)?.lift && !isLeft(all.at(-2)));
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

/** A reading near its trend whose digits were swapped, and without which the others agree better than without the likely one. */
function neighbourSlip(input: TrendInput, spots: readonly Spot[], likely: Deviation): Deviation | undefined {
  const most = roughness(withoutPoint(spots, likely.point));
  return spots.slice(1, -1).flatMap((spot): Deviation[] => {
    const [point, ...others] = spot.points;
    const trend = trendAt(spots, spot.lift);
    if (point === undefined || others.length > 0 || trend === undefined) return [];
    const share = Math.abs(point.flow / trend - 1);
    const meant = exceeds(share, PROPOSAL_TOLERANCE) ? likelyText(input, point, trend) : undefined;
    const rest = withoutPoint(spots, point);
    return meant === undefined || offTrendPoints(input, rest).length > 0 || roughness(rest) > most
      ? []
      : [{ point, trend, share, sure: true, meant }];
  })[0];
}

/** How far the readings between the first and the last lie off their trends, in all. */
const roughness = (spots: readonly Spot[]): number =>
  spots.slice(1, -1).reduce((sum, spot) => sum + away(spot, trendAt(spots, spot.lift) ?? spot.flow), 0);

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
