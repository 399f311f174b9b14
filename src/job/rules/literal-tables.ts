import { error } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Path, YamlValue } from "../../parse/yaml/source-document.ts";
import { SIDES } from "../schema/port.ts";
import { NOT_MEASURED } from "../schema/quantities.ts";
import type { JobRule } from "./rule.ts";

/** A table keeps its lines only under `|`; otherwise YAML runs them together. Seen here, for a schema sees only the text. */
export const literalTables: JobRule = ({ located }) => {
  const faults: Diagnostic[] = [];
  const look = (holder: YamlValue | undefined, key: string, ...place: Path) => {
    const text = valueIn(holder, key);
    if (typeof text !== "string" || text.trim().includes("\n") || text.trim().toLowerCase() === NOT_MEASURED) return;
    const path = [...place, key];
    if (located.isLiteralBlock(path)) return;
    const message = `the table under \`${key}\` has run together into one line`;
    const hint = `write \`${key}: |\` and the table indented under it`;
    faults.push(error("job/table-folded", message, located.span(path), { hint }));
  };
  const engine = valueIn(located.value, "engine");
  for (const cam of ["intake_cam", "exhaust_cam"]) look(valueIn(engine, cam), "profile", "engine", cam);
  listIn(located.value, "stages").forEach((stage, index) => {
    look(stage, "flow", "stages", index);
    for (const side of SIDES) look(valueIn(stage, side), "sections", "stages", index, side);
    listIn(stage, "runs").forEach((run, at) => {
      look(run, "flow", "stages", index, "runs", at);
    });
  });
  return faults;
};

const valueIn = (holder: YamlValue | undefined, key: string): YamlValue | undefined =>
  typeof holder === "object" && Object.hasOwn(holder, key)
    ? (holder as { readonly [key: string]: YamlValue })[key]
    : undefined;

function listIn(holder: YamlValue | undefined, key: string): readonly YamlValue[] {
  const list = valueIn(holder, key);
  return Array.isArray(list) ? list : [];
}
