import type { Finding } from "./finding.ts";
import type { JobRule } from "./scene.ts";

/** Sets that are compared although their conditions differ. @source common practice */
export const unlikeConditions: JobRule = ({ figures }) =>
  figures.comparisons.flatMap(({ from, to, side, differences, not_compared: not }): Finding[] =>
    differences.length === 0
      ? []
      : not
        ? [
            {
              code: not === "columns swapped" ? "figures/columns-swapped" : "figures/unlike-conditions",
              message: `${side}: ${from.label ?? from.stage} and ${to.label ?? to.stage} are not compared: ${differences.join(", ")}`,
              hint:
                not === "columns swapped"
                  ? "where two columns of readings are swapped, swap the names at the table's head"
                  : "flow one port in both stages",
            },
          ]
        : [
            {
              code: "figures/unlike-conditions",
              message: `${side}: ${from.label ?? from.stage} and ${to.label ?? to.stage} are compared although conditions differ: ${differences.join(", ")}`,
              hint: "flow both alike, or give each set-up a `set:` of its own",
            },
          ],
  );
