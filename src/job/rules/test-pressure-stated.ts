import { error } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { SourceDocument } from "../../parse/yaml/source-document.ts";
import type { RunInJob } from "../readings/run-in-job.ts";
import type { RunTable } from "../readings/run-tables.ts";
import { SIDES } from "../schema/port.ts";

/** A flow means nothing without the pressure it was read at. Told once. */
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
