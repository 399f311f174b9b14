import { error } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { didYouMean } from "../../diagnostics/did-you-mean.ts";
import { flowOfRange } from "../readings/flow-of-range.ts";
import type { ReadingsTable } from "../readings/readings-table.ts";
import type { RunInJob } from "../readings/run-in-job.ts";
import { SIDES } from "../schema/port.ts";

/** On a percent bench every reading names a range whose full flow the bench states. Told once for each range, and once where none is named. */
export function rangesKnown(run: RunInJob, table: ReadingsTable): readonly Diagnostic[] {
  if (run.bench.reads !== "percent") return [];
  const ranges = run.bench.ranges ?? {};
  const told = new Set<string>();
  return table.rows.flatMap((row) =>
    SIDES.flatMap((side) => {
      const reading = row.readings[side];
      const range = row.range[side];
      const key = range ? `${side} ${range.text}` : "";
      if (reading?.value === undefined || flowOfRange(ranges, range?.text, side) !== undefined || told.has(key))
        return [];
      told.add(key);
      const known = Object.keys(ranges);
      if (!range)
        return [
          error("job/range-missing", "these readings are percentages of a range that is not named", reading.span, {
            hint: `add a column \`range_${side === "intake" ? "i" : "e"}\`, or one \`range\` for both sides`,
          }),
        ];
      const near = didYouMean(range.text, known);
      const write = `write bench: { ranges: { "${range.text}": { intake: 96.0 cfm, exhaust: 98.2 cfm } } }`;
      return [
        error("job/range-unknown", `the bench has no ${side} flow for range \`${range.text}\``, range.span, {
          hint: near ? `did you mean ${near}?` : write,
        }),
      ];
    }),
  );
}
