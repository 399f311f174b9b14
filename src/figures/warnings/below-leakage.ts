import { SIDES, type Side, type Stage } from "../../model/model.ts";
import { leakageAt } from "../reading-to-reference.ts";
import { readSweep } from "../sweep.ts";
import type { Finding } from "./finding.ts";
import type { JobRule, Say } from "./scene.ts";

/** Readings smaller than the leakage to be taken off them, in every set of this head and of heads beside it. @source common practice */
export const belowLeakage: JobRule = ({ model, say }) => {
  const others = [...model.compared, ...model.samples].map(({ stage }) => stage);
  return [...model.stages, ...others].flatMap((stage) =>
    stage.sets.flatMap((set) =>
      SIDES.flatMap((side) =>
        readSweep({ head: "", stage, set, side }, model.reference)
          .points.filter(({ flow }) => flow < 0)
          .map(({ reading, run }) => finding(stage, side, reading, leakageAt(run.bench, side, reading.pressure), say)),
      ),
    ),
  );
};

type Reading = Stage["sets"][number]["runs"][number]["readings"]["intake"][number];

function finding(stage: Stage, side: Side, reading: Reading, leak: number, say: Say): Finding {
  return {
    severity: "error",
    code: "figures/below-leakage",
    message: `${stage.name}, ${side} at ${say.lift(reading.lift)}: ${say.flow(reading.flow!)} is less than the leakage of ${say.flow(leak)}`,
    hint: "check the leakage, its unit, and the pressure at which it was read",
    ...(reading.at === undefined ? {} : { at: reading.at }),
  };
}
