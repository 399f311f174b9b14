import type { Finding } from "./finding.ts";
import type { JobRule } from "./scene.ts";

/** Sets that are compared although their conditions differ. @source common practice */
export const unlikeConditions: JobRule = ({ figures }) =>
  figures.comparisons.flatMap(({ from, to, side, differences }): Finding[] =>
    differences.length === 0
      ? []
      : [
          {
            code: "figures/unlike-conditions",
            message: `${side}: ${from.label ?? from.stage} and ${to.label ?? to.stage} are compared although conditions differ: ${differences.join(", ")}`,
            hint: "flow both alike, or give each set-up a `set:` of its own",
          },
        ],
  );
