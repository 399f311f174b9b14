import type { Finding, JobRule } from "./check-input.ts";
/** Sets that are compared although their conditions differ. @source common practice */
export const unlikeConditions: JobRule = ({ figures }) =>
  figures.comparisons
    .filter(({ differences }) => differences.length > 0)
    .map(({ from, to, side, differences, not_compared }): Finding => {
      const { code, are, hint } = WORDING[not_compared ?? "compared"];
      const pair = `${from.label ?? from.stage} and ${to.label ?? to.stage}`;
      return { code, message: `${side}: ${pair} are ${are}: ${differences.join(", ")}`, hint };
    });

const WORDING = {
  compared: {
    code: "figures/unlike-conditions",
    are: "compared although conditions differ",
    hint: "flow both alike, or give each set-up a `set:` of its own",
  },
  "no port in both": {
    code: "figures/unlike-conditions",
    are: "not compared",
    hint: "flow one port in both stages",
  },
  "columns swapped": {
    code: "figures/columns-swapped",
    are: "not compared",
    hint: "where two columns of readings are swapped, swap the names at the table's head",
  },
} as const;
