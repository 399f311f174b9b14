import type { Finding, JobRule } from "./check-input.ts";
/** Sets that are compared although their conditions differ, once for both sides. @source common practice */
export const unlikeConditions: JobRule = ({ figures }) => {
  const pairs = new Map<string, { sides: string[]; rest: string; code: Finding["code"]; hint: string }>();
  for (const { from, to, side, differences, not_compared } of figures.comparisons) {
    if (differences.length === 0) continue;
    const { code, are, hint } = WORDING[not_compared ?? "compared"];
    const rest = `${from.label ?? from.stage} and ${to.label ?? to.stage} are ${are}: ${differences.join(", ")}`;
    const known = pairs.get(rest);
    if (known) known.sides.push(side);
    else pairs.set(rest, { sides: [side], rest, code, hint });
  }
  return [...pairs.values()].map(({ sides, rest, code, hint }) => ({
    code,
    message: `${[...new Set(sides)].join(" and ")}: ${rest}`,
    hint,
  }));
};

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
