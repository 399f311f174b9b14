import { type Run, SIDES, type Side, type Stage } from "../../model/model.ts";
import { portKey } from "../sweep/point.ts";
import type { Finding, JobRule } from "./check-input.ts";

/** Fewer equal readings than this may be coincidence. */
const LEAST = 3;

type SideRun = { readonly stage: Stage; readonly run: Run; readonly side: Side };

/** The same readings to the last digit in two cylinders, or in two stages. @source common practice */
export const pastedTwice: JobRule = ({ model }) =>
  SIDES.flatMap((side) => {
    const all = model.stages.flatMap((stage) =>
      stage.sets.flatMap((set) => set.runs.map((run): SideRun => ({ stage, run, side }))),
    );
    return all.flatMap((one, k) =>
      all.slice(k + 1).flatMap((other): Finding[] => {
        const elsewhere = one.stage !== other.stage || portKey(one.run) !== portKey(other.run);
        if (!elsewhere || !haveSameValues(valuesOf(one), valuesOf(other))) return [];
        const at = other.run.readings[side][0]?.at;
        return [
          {
            code: "figures/pasted-twice",
            message: `${runName(other)}, ${side}: the same readings as ${runName(one)}, to the last digit`,
            hint: "a sweep was probably pasted twice",
            ...(at === undefined ? {} : { at }),
          },
        ];
      }),
    );
  });

function valuesOf({ run, side }: SideRun): (readonly [number, number])[] {
  return run.readings[side].flatMap(({ lift, flow }) => (flow === undefined ? [] : [[lift, flow] as const]));
}

function haveSameValues(
  one: readonly (readonly [number, number])[],
  other: readonly (readonly [number, number])[],
): boolean {
  if (one.length < LEAST || one.length !== other.length) return false;
  return one.every(([lift, flow], k) => lift === other[k]![0] && flow === other[k]![1]);
}

const runName = ({ stage, run }: SideRun) => `${stage.name}, cylinder ${portKey(run)}`;
