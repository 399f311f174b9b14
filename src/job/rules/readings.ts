import { error } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Path, SourceDocument, YamlValue } from "../../parse/yaml/source-document.ts";
import type { RunInJob, RunTable } from "../readings/run-tables.ts";
import { SIDES } from "../schema/port.ts";
import { NOT_MEASURED } from "../schema/quantities.ts";
import type { JobRule } from "./rule.ts";

/** A run is a table or a file of readings. */
export const runHasReadings: JobRule = ({ job, located }) =>
  (job.stages ?? []).flatMap((stage, index) =>
    (stage.runs ?? []).flatMap((run, at) =>
      run.flow === undefined && run.file === undefined
        ? [
            error("job/run-without-readings", "this run has no readings", located.span(["stages", index, "runs", at]), {
              hint: "write `flow: |` with a table under it, or `file:` with the path of a readings file",
            }),
          ]
        : [],
    ),
  );

/** A table needs `|`, else YAML folds its lines into one. A rule, since the schema sees only the text and not its style. */
export const literalTables: JobRule = ({ located }) => {
  const faults: Diagnostic[] = [];
  const check = (holder: YamlValue | undefined, key: string, ...place: Path) => {
    const text = valueIn(holder, key);
    if (typeof text !== "string" || text.trim().includes("\n") || text.trim().toLowerCase() === NOT_MEASURED) return;
    const path = [...place, key];
    if (located.isLiteralBlock(path)) return;
    const message = `the table under \`${key}\` has run together into one line`;
    const hint = `write \`${key}: |\` and the table indented under it`;
    faults.push(error("job/table-folded", message, located.span(path), { hint }));
  };
  const engine = valueIn(located.value, "engine");
  for (const cam of ["intake_cam", "exhaust_cam"]) check(valueIn(engine, cam), "profile", "engine", cam);
  listIn(located.value, "stages").forEach((stage, index) => {
    check(stage, "flow", "stages", index);
    check(stage, "valve_train", "stages", index);
    for (const side of SIDES) check(valueIn(stage, side), "sections", "stages", index, side);
    listIn(stage, "runs").forEach((run, at) => {
      check(run, "flow", "stages", index, "runs", at);
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

/** A flow is meaningless without its test pressure. Reported once a job. */
export function testPressureStated(
  runs: readonly RunInJob[],
  tables: readonly RunTable[],
  located: SourceDocument,
): readonly Diagnostic[] {
  const without = runs.find((run) => {
    const table = tables.find((one) => one.stage === run.stage && one.run === run.run)?.table;
    if (run.bench.test_pressure !== undefined || !table) return false;
    return table.rows.some((row) =>
      SIDES.some((side) => row.readings[side]?.value !== undefined && !row.pressure[side]),
    );
  });
  if (!without) return [];
  const key = without.run === undefined || without.flow !== undefined ? "flow" : "file";
  return [
    error(
      "job/test-pressure",
      "the test pressure of these readings is not stated",
      located.keySpan([...without.path, key]),
      {
        hint: "write `bench: { test_pressure: 28 inH2O }` in shop.yaml or in the job",
      },
    ),
  ];
}
