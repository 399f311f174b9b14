import { error } from "../../diagnostics/build.ts";
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
