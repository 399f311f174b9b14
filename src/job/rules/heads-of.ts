import { error } from "../../diagnostics/build.ts";
import type { JobRule } from "./rule.ts";

/** Heads side by side stand in place of stages, in a job of the customer's own. */
export const headsOf: JobRule = ({ job, located }) =>
  job.heads_of === undefined
    ? []
    : (["stages", "compare", "product"] as const).flatMap((key) =>
        job[key] === undefined
          ? []
          : [
              error("job/heads-of", `both \`heads_of\` and \`${key}\` stand here`, located.keySpan([key]), {
                hint: "`heads_of` is for a job of its own, with the customer and his engine; else name other heads under `compare`",
              }),
            ],
      );
