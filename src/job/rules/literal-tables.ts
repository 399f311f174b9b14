import type { Path } from "../../source/located.ts";
import { valueAt } from "../issues.ts";
import { NOT_MEASURED } from "../schema/quantities.ts";
import { error, type JobRule, SIDES } from "./rule.ts";

/** A table keeps its lines only under `|`; otherwise YAML runs them together. Seen here, for a schema sees only the text. */
export const literalTables: JobRule = ({ located }) => {
  const entries = (path: Path): Path[] => {
    const list = valueAt(located.value, path);
    return Array.isArray(list) ? list.map((_, index) => [...path, index]) : [];
  };
  const places: Path[] = [
    ...["intake_cam", "exhaust_cam"].map((cam) => ["engine", cam, "profile"]),
    ...entries(["stages"]).flatMap((stage) => [
      [...stage, "flow"],
      ...SIDES.map((side) => [...stage, side, "sections"]),
      ...entries([...stage, "runs"]).map((run) => [...run, "flow"]),
    ]),
  ];
  return places.flatMap((path) => {
    const text = valueAt(located.value, path);
    if (typeof text !== "string" || located.isLiteralBlock(path) || text.trim().includes("\n")) return [];
    if (text.trim().toLowerCase() === NOT_MEASURED) return [];
    const key = String(path.at(-1));
    return [
      error("job/table-folded", `the table under \`${key}\` has run together into one line`, located.span(path), {
        hint: `write \`${key}: |\` and the table indented under it`,
      }),
    ];
  });
};
