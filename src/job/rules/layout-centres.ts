import { error } from "../../diagnostics/build.ts";
import { SIDES } from "../schema/port.ts";
import type { JobRule } from "./rule.ts";

/** A valve centre is two lengths: across and along. */
export const layoutCentres: JobRule = ({ job, located }) =>
  (job.stages ?? []).flatMap((stage, index) =>
    SIDES.flatMap((side) =>
      (stage.layout?.[side] ?? []).flatMap((centre, at) =>
        centre.length === 2
          ? []
          : [
              error(
                "job/layout-centre",
                "a valve centre is two lengths, across and along",
                located.span(["stages", index, "layout", side, at]),
                {
                  hint: "write [ [0.78, 0.06] ]: a list of centres, also for a single valve",
                },
              ),
            ],
      ),
    ),
  );
