import type { Model, Side } from "../../model/model.ts";
import type { Finding, JobRule } from "./check-input.ts";

/** Sets that are compared although their conditions differ, once for both sides. @source common practice */
export const unlikeConditions: JobRule = ({ model, figures }) => {
  const pairs = new Map<string, Pick<Finding, "code" | "hint" | "at"> & { sides: string[]; rest: string }>();
  for (const { from, to, side, differences, not_compared } of figures.comparisons) {
    if (differences.length === 0) continue;
    const { code, are, hint } = WORDING[not_compared ?? "compared"];
    const rest = `${from.label ?? from.stage} and ${to.label ?? to.stage} are ${are}: ${differences.join(", ")}`;
    const known = pairs.get(rest);
    if (known) known.sides.push(side);
    else pairs.set(rest, { sides: [side], rest, code, hint, ...firstReading(model, to.stage, side) });
  }
  return [...pairs.values()].map(({ sides, rest, code, hint, at }) => ({
    code,
    message: `${[...new Set(sides)].join(" and ")}: ${rest}`,
    hint,
    ...(at && { at }),
  }));
};

/** Where the readings of a stage's leading set begin on a side. */
function firstReading({ stages }: Model, name: string, side: Side): Pick<Finding, "at"> {
  const set = stages.find((stage) => stage.name === name)?.sets[0];
  const at = set?.runs.flatMap((run) => run.readings[side])[0]?.at;
  return at === undefined ? {} : { at };
}

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
