import { fromSi, toSi } from "../../units/convert.ts";
import { cubicMetresPerSecond } from "../../units/quantity.ts";
import { NO_FLOW } from "../constants.ts";
import { sameLift } from "../math/lifts.ts";
import { over } from "../math/limits.ts";
import { curveAt, pchipSlopes } from "../math/pchip.ts";
import { readingToReference } from "../sweep/reading-to-reference.ts";
import type { MeanReading } from "../sweep/sweep.ts";
import { nameOf, type SideCheckInput, type SideRule } from "./check-input.ts";
import type { Finding } from "./finding.ts";
import { mistypings } from "./mistypings.ts";

const LIMIT = 0.05;
/** At the ends of a sweep a trend is surer of a slip than of a small miss. */
const LIMIT_AT_ENDS = 0.1;
const LANDS = 0.015;
/** Neighbours further apart than this, in lift ÷ diameter, do not tell a trend to 5 %. */
const CLOSE = 0.13;

type Miss = { readonly reading: MeanReading; readonly trend: number; readonly share: number; readonly sure: boolean };

/**
 * A reading more than 5 % off the trend of its neighbours. Of several the worst is taken first and then left aside, so that
 * it does not put its neighbours under suspicion. At the ends of a sweep, or where neighbours lie far apart, only a reading
 * that a slip of the pen would explain is named.
 * @source common practice
 */
export const offTrend: SideRule = (scene) => {
  const found: Finding[] = [];
  let left = scene.sweep.good.filter((reading) => reading.flow > NO_FLOW);
  while (left.length > 2) {
    const misses = left.flatMap((reading): (Miss & { readonly proposal?: number })[] => {
      const miss = missOf(scene, left, reading);
      if (miss === undefined || !over(miss.share, miss.sure ? LIMIT : LIMIT_AT_ENDS)) return [];
      const proposal = proposalFor(scene, miss);
      return miss.sure || proposal !== undefined ? [{ ...miss, proposal }] : [];
    });
    if (misses.length === 0) break;
    const worst = misses.reduce((one, other) => (sizeOf(other) > sizeOf(one) ? other : one));
    found.push(findingOf(scene, worst));
    left = left.filter((reading) => reading !== worst.reading);
  }
  return found;
};

/** Twice and half the trend are equally far from it. */
const sizeOf = ({ reading, trend }: Miss) => Math.abs(Math.log(reading.flow / trend));

/** Flow ÷ lift is smoother than flow, so the trend is taken in it. */
function missOf({ diameter }: SideCheckInput, all: readonly MeanReading[], reading: MeanReading): Miss | undefined {
  const k = all.indexOf(reading);
  const others = all.filter((other) => other !== reading);
  const x = others.map((other) => other.lift);
  const y = others.map((other) => other.flow / other.lift);
  const inside = k > 0 && k < all.length - 1;
  const perLift = inside ? curveAt({ x, y, d: pchipSlopes(x, y) }, reading.lift) : prolonged(x, y, reading.lift);
  if (perLift === undefined || !(perLift * reading.lift > NO_FLOW)) return undefined;
  const trend = perLift * reading.lift;
  const scale = diameter ?? 4 * all[all.length - 1]!.lift;
  const sure = inside && !over((all[k + 1]!.lift - all[k - 1]!.lift) / scale, CLOSE);
  return { reading, trend, share: Math.abs(reading.flow / trend - 1), sure };
}

/** Beyond either end: level below the first, straight on above the last. */
function prolonged(x: readonly number[], y: readonly number[], at: number): number {
  if (at < x[0]!) return y[0]!;
  const last = x.length - 1;
  return y[last]! + ((y[last]! - y[last - 1]!) / (x[last]! - x[last - 1]!)) * (at - x[last]!);
}

/** What was probably meant, in the unit of the sheet, when a slip of the pen explains the reading. */
function proposalFor({ sweep, model, set }: SideCheckInput, { reading, trend }: Miss): number | undefined {
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
    .filter(({ miss }) => !over(miss, LANDS))
    .sort((a, b) => a.miss - b.miss);
  return near[0]?.value;
}

function findingOf(
  scene: SideCheckInput,
  { reading, trend, share, proposal }: Miss & { readonly proposal?: number },
): Finding {
  const side = reading.flow > trend ? "above" : "below";
  const at = scene.sweep.points.find((point) => sameLift(point.lift, reading.lift))?.reading.at;
  const meant = proposal === undefined ? undefined : scene.say.flow(toSi(proposal, "flow", scene.model.units.flow));
  return {
    code: "figures/off-trend",
    message: `${nameOf(scene, reading.lift, reading.flow)} lies ${scene.say.percent(share)} ${side} the trend of its neighbours`,
    hint: meant === undefined ? "misread, mistyped, or a lift set wrong: measure it again" : `did you mean ${meant}?`,
    ...(at === undefined ? {} : { at }),
  };
}
