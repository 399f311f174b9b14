import { error } from "../../diagnostics/build.ts";
import type { Path } from "../../parse/yaml/source-document.ts";
import { SIDES } from "../schema/port.ts";
import type { JobRule } from "./rule.ts";

/** Pairs of keys that state one fact in two ways, by the map that holds them. */
const PAIRS = {
  piston: [
    ["dish", "dome"],
    ["below_deck", "above_deck"],
  ],
  stage: [
    ["chamber", "chambers"],
    ["flow", "runs"],
  ],
  port: [["port_volume", "port_volumes"]],
  run: [["flow", "file"]],
} as const;

/** All pairs of keys of which a map holds one at most. */
export const ONE_OF_TWO: readonly (readonly [string, string])[] = Object.values(PAIRS).flat();

/** Of two keys that state one fact only one may be used. */
export const oneOfTwo: JobRule = ({ job, located }) => {
  const both = (map: object | undefined, pairs: readonly (readonly [string, string])[], path: Path) =>
    pairs.flatMap(([first, second]) => {
      const values = (map ?? {}) as Readonly<Record<string, unknown>>;
      if (values[first] === undefined || values[second] === undefined) return [];
      const message = `both \`${first}\` and \`${second}\` stand here`;
      return [error("job/one-of-two", message, located.keySpan([...path, second]), { hint: "keep one of the two" })];
    });
  return [
    ...both(job.engine?.piston, PAIRS.piston, ["engine", "piston"]),
    ...(job.stages ?? []).flatMap((stage, index) => [
      ...both(stage, PAIRS.stage, ["stages", index]),
      ...SIDES.flatMap((side) => both(stage[side], PAIRS.port, ["stages", index, side])),
      ...(stage.runs ?? []).flatMap((run, at) => both(run, PAIRS.run, ["stages", index, "runs", at])),
    ]),
  ];
};
