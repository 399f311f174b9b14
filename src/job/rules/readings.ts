import { error, warning } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Path, SourceDocument, YamlValue } from "../../parse/yaml/source-document.ts";
import { type StageFacts, valvesOf } from "../inherit.ts";
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

/** YAML folds the lines of a table without `|` into one. A rule, since the schema gets only the text and not its style. */
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

/** Common practice: heads are flowed to 0.25–0.45 lift ÷ diameter. Far outside, lifts were typed in another unit. */
const FAR_ABOVE = 1.5;
const FAR_BELOW = 0.035;
/** A usual valve [m], where the job states none. */
const USUAL_VALVE = 0.038;

/** Lifts that look like millimetres under inches, or the reverse. */
export function liftUnits(stages: readonly StageFacts[], tables: readonly RunTable[]): readonly Diagnostic[] {
  return tables.flatMap(({ stage, table }) => {
    const heads = SIDES.flatMap((side) => {
      const port = stages[stage]?.[side];
      return port ? valvesOf(port, 1).flatMap((valve) => valve.head ?? []) : [];
    });
    const valve = heads.length > 0 ? Math.max(...heads) : USUAL_VALVE;
    const last = table.rows.reduce((a, b) => (b.lift.value > a.lift.value ? b : a));
    const ratio = last.lift.value / valve;
    if (ratio <= FAR_ABOVE && ratio >= FAR_BELOW) return [];
    const [is, looks] =
      ratio > FAR_ABOVE
        ? ["more than the valve's own diameter", "mm under inches"]
        : ["next to nothing for this valve", "inches under mm"];
    const message = `a lift of \`${last.lift.text}\` is ${is}: lifts that look like ${looks}`;
    return [
      warning("job/lift-unit", message, last.lift.span, {
        hint: "name the unit in the head of the column, such as lift/mm",
      }),
    ];
  });
}
