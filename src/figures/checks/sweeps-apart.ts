import { sameLift } from "../../units/same-lift.ts";
import { sharedLifts } from "../math/lifts.ts";
import { exceeds } from "../math/limits.ts";
import { portKey } from "../sweep/point.ts";
import { readSweep, type Sweep } from "../sweep/sweep.ts";
import type { Finding, SideRule } from "./check-input.ts";

/** Largest mean difference between two sweeps: of one mount, and of two mounts. */
const LIMIT = { sameMount: 0.025, remounted: 0.035 } as const;

/** Two sweeps of one port in one set that differ by more than 2.5 % over their shared lifts; 3.5 % where the head was taken off between. @source common practice */
export const sweepsApart: SideRule = ({ stage, side, set, sweep: whole, format }) => {
  const sweeps = set.runs.map((run, k) => ({ run, sweep: readSweep({ ...whole.source, run: k }, whole.reference) }));
  return sweeps.flatMap((one, k) =>
    sweeps.slice(k + 1).flatMap((other): Finding[] => {
      if (portKey(one.run) !== portKey(other.run)) return [];
      const lifts = sharedLifts([one.sweep, other.sweep].map((sweep) => sweep.good.map((reading) => reading.lift)));
      const [first, second] = [totalFlow(one.sweep, lifts), totalFlow(other.sweep, lifts)];
      const limit = one.run.mount === other.run.mount ? LIMIT.sameMount : LIMIT.remounted;
      if (!(first > 0) || !exceeds(Math.abs(second / first - 1), limit)) return [];
      const at = other.sweep.points[0]?.reading.at;
      return [
        {
          code: "figures/sweeps-apart",
          message: `${stage.name}, ${side}, cylinder ${one.run.cylinder}: two sweeps lie ${format.percent(Math.abs(second / first - 1))} apart`,
          hint: "look for a leak, a shifted fixture or another range, or give what differs a set of its own",
          ...(at === undefined ? {} : { at }),
        },
      ];
    }),
  );
};

function totalFlow(sweep: Sweep, lifts: readonly number[]): number {
  return sweep.good
    .filter((reading) => lifts.some((lift) => sameLift(lift, reading.lift)))
    .reduce((sum, reading) => sum + reading.flow, 0);
}
