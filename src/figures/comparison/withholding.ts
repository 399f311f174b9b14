import type { DisplayUnits } from "../../model/model.ts";
import { sameLift } from "../../units/same-lift.ts";
import { CHECK_PLATE_WITHHOLDS, checkPlateError } from "../checks/bench-conditions.ts";
import type { Comparison } from "../figures.ts";
import { distinctLifts } from "../math/lifts.ts";
import { exceeds } from "../math/limits.ts";
import { haveLikeConditions } from "../sweep/conditions.ts";
import { isGood } from "../sweep/point.ts";
import type { Sweep } from "../sweep/sweep.ts";
import { changeAt, isAccuracyUnknown } from "./flow-change.ts";

/**
 * Why no verdict is given on the changes between two sweeps, the first that holds. With `two ranges` only the mean, and the
 * lifts and peaks at which two ranges meet, have none.
 *
 *     conditions | check plate | two benches | two ranges | flowed once
 *
 * @param from   the one sweep
 * @param to     the other
 * @param units  units of the sheet
 * @returns      the reason, or undefined where verdicts are given
 * @source       common practice
 * @example      withholdingReason({ source: { side: "intake", set: { bench: { testPressure: 7000, attached: {} } } } }, { source: { side: "intake", set: { bench: { testPressure: 2500, attached: {} } } } }, { pressure: "Pa" }) // "conditions"
 */
export function withholdingReason(from: Sweep, to: Sweep, units: DisplayUnits): Comparison["verdict_withheld"] {
  const [one, other] = [from.source.set, to.source.set];
  if (!haveLikeConditions(one, other, to.source.side, units)) return "conditions";
  const benches = [one.bench, other.bench];
  if (benches.some((bench) => exceeds(checkPlateError(bench), CHECK_PLATE_WITHHOLDS))) return "check plate";
  if (isAccuracyUnknown([], from, to)) return "two benches";
  if (haveTwoRanges(from, to)) return "two ranges";
  const isUnknown = [from, to].every(({ scatter }) => scatter?.repeatability === undefined);
  return isUnknown && ![from, to].some(isReadTwice) ? "flowed once" : undefined;
}

/**
 * Whether the accuracy that two sweeps do not share is unknown, so that no ± of their mean change can be known.
 *
 *     two benches or two ranges, and an accuracy missing
 *
 * @param from   the one sweep
 * @param to     the other
 * @returns      true where nothing can be said of what benches or ranges differ by
 * @source       JCGM 100:2008 (GUM), 5.2
 * @example      hasUnknownAccuracy({ good: [], source: { set: { bench: { name: "A" } } } }, { good: [], source: { set: { bench: { name: "B" } } } }) // true
 */
export const hasUnknownAccuracy = (from: Sweep, to: Sweep): boolean =>
  isAccuracyUnknown([], from, to) || haveTwoRanges(from, to);

/** Whether two ranges meet at any lift that either measured and both reach. */
function haveTwoRanges(from: Sweep, to: Sweep): boolean {
  const first = Math.max(...[from, to].map(({ good }) => good[0]?.lift ?? 0));
  return distinctLifts([...from.good, ...to.good].map(({ lift }) => lift)).some(
    (lift) => lift >= first && changeAt(from, to, lift)?.unknownAccuracy === true,
  );
}

/** Whether any lift of a port was read twice, in one mount or in two. */
function isReadTwice({ points }: Sweep): boolean {
  const good = points.filter(isGood);
  return good.some((one, k) =>
    good.slice(0, k).some((other) => other.port === one.port && sameLift(other.lift, one.lift)),
  );
}
