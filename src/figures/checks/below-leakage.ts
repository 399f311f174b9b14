import { SIDES } from "../../model/model.ts";
import type { Point } from "../sweep/point.ts";
import { leakageAt } from "../sweep/reading-to-reference.ts";
import type { Sweep } from "../sweep/sweep.ts";
import type { Formatters, JobRule } from "./check-input.ts";
import type { Finding } from "./finding.ts";

/** Readings smaller than the leakage to be taken off them, in every set of this head and of heads beside it. @source common practice */
export const belowLeakage: JobRule = ({ sweeps, say }) =>
  [...sweeps.stages, ...sweeps.compared, ...sweeps.samples].flatMap(({ sets }) =>
    sets.flatMap((set) =>
      SIDES.flatMap((side) =>
        set[side].points.filter(({ flow }) => flow < 0).map((point) => finding(set[side], point, say)),
      ),
    ),
  );

function finding({ source: { stage, side } }: Sweep, { reading, run }: Point, say: Formatters): Finding {
  const leak = leakageAt(run.bench, side, reading.pressure);
  return {
    severity: "error",
    code: "figures/below-leakage",
    message: `${stage.name}, ${side} at ${say.lift(reading.lift)}: ${say.flow(reading.flow!)} is less than the leakage of ${say.flow(leak)}`,
    hint: "check the leakage, its unit, and the pressure at which it was read",
    ...(reading.at === undefined ? {} : { at: reading.at }),
  };
}
