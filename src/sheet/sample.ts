import type { SampleSideFigures } from "../figures/figures.ts";
import { SIDES, type Side } from "../model/model.ts";
import type { Context } from "./context.ts";
import { findAtLift } from "./lifts.ts";

export type SampleReading = SampleSideFigures["readings"][number];

/** The sides on which a product's heads were flowed. */
export function sampledSides({ figures: { sample } }: Context) {
  return SIDES.flatMap((side): readonly { readonly side: Side; readonly figures: SampleSideFigures }[] => {
    const figures = sample?.[side];
    return figures && figures.readings.length > 0 ? [{ side, figures }] : [];
  });
}

/** The reading that a catalogue page names: at high lift, else at the highest lift that all heads have. */
export function leadingReading({ readings, compared }: SampleSideFigures, n: number): SampleReading | undefined {
  const high = compared.findLast(({ at }) => at === "high") ?? compared.at(-1);
  return (high && findAtLift(readings, high.lift_m)) ?? readings.findLast((one) => one.n === n) ?? readings.at(-1);
}
