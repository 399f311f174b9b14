import type { Bench } from "../../model/model.ts";
import { exceeds } from "../math/limits.ts";
import { type Finding, keyPlace, type StageRule } from "./check-input.ts";

/** Deviation of a check plate above which a warning is given [1]. */
const CHECK_PLATE_WARNS = 0.01;
/** Deviation of a check plate above which no verdict is given [1]. */
export const CHECK_PLATE_WITHHOLDS = 0.02;

/**
 * How far a check plate of known flow read off, before or after the work, whichever is worse.
 *
 *     e = max |reading ÷ nominal − 1|
 *
 * @param bench  the bench with its check plate, if one was flowed
 * @returns      e [1]; 0 without a check plate
 * @source       common practice
 * @example      checkPlateError({ checkPlate: { nominal: 0.070, before: 0.0693, after: 0.0702 } }) // 0.01
 */
export function checkPlateError({ checkPlate }: Bench): number {
  if (checkPlate === undefined) return 0;
  const { nominal, before = nominal, after = nominal } = checkPlate;
  return Math.max(Math.abs(before / nominal - 1), Math.abs(after / nominal - 1));
}

const FIXTURE = 0.03;

/** A bore fixture more than 3 % off the bore. @source common practice */
export const fixtureOffBore: StageRule = ({ model, stage, index, source, format }) => {
  const bore = model.engine?.bore ?? stage.layout?.bore;
  return benchesOf(stage).flatMap(({ boreFixture }): Finding[] => {
    if (bore === undefined || boreFixture === undefined) return [];
    const off = boreFixture / bore - 1;
    if (!exceeds(Math.abs(off), FIXTURE)) return [];
    return [
      {
        code: "figures/fixture-off-bore",
        message: `the bore fixture of ${format.length(boreFixture)} is ${format.percent(Math.abs(off))} ${off > 0 ? "over" : "under"} the bore of ${format.length(bore)}`,
        hint: "check both; one that is too large unshrouds the valves and flatters mid-lift: use a fixture of the engine's bore",
        ...keyPlace(source, ["stages", index, "bench", "bore_fixture"], ["bench", "bore_fixture"], ["engine", "bore"]),
      },
    ];
  });
};

/** A check plate more than 1 % off; beyond 2 % no verdict is given. @source common practice */
export const checkPlateOff: StageRule = ({ stage, index, source, format }) =>
  benchesOf(stage).flatMap((bench): Finding[] => {
    const error = checkPlateError(bench);
    if (!exceeds(error, CHECK_PLATE_WARNS)) return [];
    const withheld = exceeds(error, CHECK_PLATE_WITHHOLDS);
    return [
      {
        code: "figures/check-plate",
        message: `the check plate read ${format.percent(error)} off${withheld ? ", so no verdict is given" : ""}`,
        hint: "look for a leak or a wet or unlevel gauge, and flow the plate again",
        ...keyPlace(source, ["stages", index, "bench", "check_plate"], ["bench", "check_plate"]),
      },
    ];
  });

function benchesOf(stage: { readonly bench: Bench; readonly sets: readonly { readonly bench: Bench }[] }): Bench[] {
  return stage.sets.length === 0 ? [stage.bench] : stage.sets.map((set) => set.bench);
}
