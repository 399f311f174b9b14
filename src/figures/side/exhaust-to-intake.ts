import type { Side, Stage } from "../../model/model.ts";
import { sameLift } from "../../units/same-lift.ts";
import { NO_FLOW } from "../constants.ts";
import type { StageFigures } from "../figures.ts";
import { budgetOf, propagate } from "../math/uncertainty.ts";
import { type MeanReading, narrowSweep, type Sweep } from "../sweep/sweep.ts";
import { uncertaintyOfRatio } from "../sweep/sweep-uncertainty.ts";

/**
 * Exhaust as a share of intake for one cylinder, at the lifts measured on both, over the cylinders that are full on both sides.
 *
 *     r = (Q_exhaust · ports) ÷ (Q_intake · ports)
 *
 * The two sides flow through the meter in opposite directions, so the bench's accuracy is not taken to cancel.
 *
 * @param ports    the stage's ports, each with how many of it feed a cylinder; 1 where not described
 * @param intake   the stage's intake sweep, if flowed
 * @param exhaust  the stage's exhaust sweep, if flowed
 * @returns        one entry a lift with both, ascending; none where the intake passes nothing or no cylinder has both
 * @source         common practice
 * @example        exhaustToIntake({ intake: { ports: 1 }, exhaust: { ports: 2 } }, { ports: ["1"], good: [{ lift: 1, flow: 100 }] }, { ports: ["1"], full: ["1"], good: [{ lift: 1, flow: 40 }] }) // [{ lift_m: 1, ratio: 0.8 }]
 */
export function exhaustToIntake(
  ports: Stage["ports"],
  intake: Sweep | undefined,
  exhaust: Sweep | undefined,
): StageFigures["exhaust_to_intake"] {
  const common = intake?.ports.filter((port) => exhaust?.full.includes(port)) ?? [];
  if (intake === undefined || exhaust === undefined || common.length === 0) return [];
  const of = (side: Side) => ports[side]?.ports ?? 1;
  const by = of("exhaust") / of("intake");
  return pairedReadings(narrowSweep(intake, common), narrowSweep(exhaust, common)).map(({ into, out }) => {
    const terms = out.terms && propagate([out.terms], [by]);
    const combined = uncertaintyOfRatio(out.flow * by, terms, into.flow, into.terms);
    const figures = combined && { uncertainty: combined.expanded, budget: budgetOf(combined) };
    return { lift_m: into.lift, ratio: (out.flow * by) / into.flow, ...figures };
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
