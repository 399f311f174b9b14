import type { Bench } from "../../model/model.ts";
import { over } from "../math/limits.ts";
import type { StageRule } from "./check-input.ts";
import { CHECK_PLATE_WARNS, CHECK_PLATE_WITHHOLDS, checkPlateError } from "./check-plate.ts";
import type { Finding } from "./finding.ts";

const FIXTURE = 0.03;

/** A bore fixture more than 3 % off the bore. @source common practice */
export const fixtureOffBore: StageRule = ({ model, stage, say }) => {
  const bore = model.engine?.bore ?? stage.layout?.bore;
  return benchesOf(stage).flatMap(({ boreFixture }): Finding[] => {
    if (bore === undefined || boreFixture === undefined) return [];
    const off = boreFixture / bore - 1;
    if (!over(Math.abs(off), FIXTURE)) return [];
    return [
      {
        code: "figures/fixture-off-bore",
        message: `${stage.name}: the bore fixture of ${say.length(boreFixture)} is ${say.percent(Math.abs(off))} ${off > 0 ? "over" : "under"} the bore of ${say.length(bore)}`,
        hint: "a bore that is too large unshrouds the valves and flatters mid-lift; use a fixture of the engine's bore",
      },
    ];
  });
};

/** A check plate more than 1 % off; beyond 2 % no verdict is given. @source common practice */
export const checkPlateOff: StageRule = ({ stage, say }) =>
  benchesOf(stage).flatMap((bench): Finding[] => {
    const error = checkPlateError(bench);
    if (!over(error, CHECK_PLATE_WARNS)) return [];
    const withheld = over(error, CHECK_PLATE_WITHHOLDS);
    return [
      {
        code: "figures/check-plate",
        message: `${stage.name}: the check plate read ${say.percent(error)} off${withheld ? ", so no verdict is given" : ""}`,
        hint: "look for a leak or a wet or unlevel gauge, and flow the plate again",
      },
    ];
  });

function benchesOf(stage: { readonly bench: Bench; readonly sets: readonly { readonly bench: Bench }[] }): Bench[] {
  return stage.sets.length === 0 ? [stage.bench] : stage.sets.map((set) => set.bench);
}
