import { NO_FLOW } from "../constants.ts";
import type { StageFigures } from "../figures.ts";
import { sameLift } from "../math/lifts.ts";
import type { MeanReading, Sweep } from "../sweep/sweep.ts";
import { uncertaintyOfRatio } from "../sweep/sweep-uncertainty.ts";

/**
 * Exhaust as a share of intake at the lifts measured on both.
 *
 *     r = Q_exhaust ÷ Q_intake
 *
 * The two sides flow through the meter in opposite directions, so the bench's accuracy is not taken to cancel.
 *
 * @param intake   the stage's intake sweep, if flowed
 * @param exhaust  the stage's exhaust sweep, if flowed
 * @returns        one entry a lift with both, ascending; none where the intake passes nothing
 * @source         common practice
 * @example        exhaustToIntake({ good: [{ lift: 1, flow: 100 }] }, { good: [{ lift: 1, flow: 75 }] }) // [{ lift_m: 1, ratio: 0.75 }]
 */
export function exhaustToIntake(
  intake: Pick<Sweep, "good"> | undefined,
  exhaust: Pick<Sweep, "good"> | undefined,
): StageFigures["exhaust_to_intake"] {
  return pairedReadings(intake, exhaust).map(({ into, out }) => {
    const combined = uncertaintyOfRatio(out.flow, out.terms, into.flow, into.terms);
    const uncertainty = combined === undefined ? {} : { uncertainty: combined.expanded };
    return { lift_m: into.lift, ratio: out.flow / into.flow, ...uncertainty };
  });
}

/**
 * The readings of both sides at the lifts measured on both.
 *
 *     (I(L), E(L)) where I(L) passes something
 *
 * @param intake   the stage's intake sweep, if flowed
 * @param exhaust  the stage's exhaust sweep, if flowed
 * @returns        one pair a lift, in the order of the intake's
 * @example        pairedReadings({ good: [{ lift: 1, flow: 100 }] }, { good: [{ lift: 2, flow: 75 }] }) // []
 */
export function pairedReadings(
  intake: Pick<Sweep, "good"> | undefined,
  exhaust: Pick<Sweep, "good"> | undefined,
): { readonly into: MeanReading; readonly out: MeanReading }[] {
  return (intake?.good ?? []).flatMap((into) => {
    const out = exhaust?.good.find((reading) => sameLift(reading.lift, into.lift));
    return out !== undefined && into.flow > NO_FLOW ? [{ into, out }] : [];
  });
}
