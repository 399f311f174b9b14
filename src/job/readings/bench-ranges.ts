import { error } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { didYouMean } from "../../diagnostics/did-you-mean.ts";
import type { CubicMetresPerSecond } from "../../units/quantity.ts";
import type { PortSide } from "../inherit.ts";
import type { JobBench } from "../schema/job.ts";
import { SIDES } from "../schema/port.ts";
import type { ReadingCell } from "./readings-row.ts";
import type { ReadingsTable } from "./readings-table.ts";

type Ranges = Readonly<
  Record<string, { readonly intake?: CubicMetresPerSecond; readonly exhaust?: CubicMetresPerSecond }>
>;

/** Name of a reading's range: a table need not name the range of a bench that has only one. */
export function rangeName(ranges: Ranges, typed: string | undefined): string | undefined {
  const names = Object.keys(ranges);
  return typed ?? (names.length === 1 ? names[0] : undefined);
}

/** The flow at 100 % of a range [m³/s]. */
export function flowOfRange(
  ranges: Ranges,
  range: string | undefined,
  side: PortSide,
): CubicMetresPerSecond | undefined {
  const name = rangeName(ranges, range);
  return name !== undefined && Object.hasOwn(ranges, name) ? ranges[name]?.[side] : undefined;
}

/** Highest share of a range that a gauge shows [1]. */
const FULL = 1.05;

/** The error of a reading above the end of its range, unless it is struck out. */
function overRange({ kind, value = 0, text, span }: ReadingCell): readonly Diagnostic[] {
  if (kind === "struck out" || value <= FULL * (1 + 1e-9)) return [];
  return [
    error("job/range-over", `${/%/.test(text) ? text : `${text} %`} of a range is more than a gauge shows`, span, {
      hint: "check the reading; above 105 % it was read on a larger range, or not at all: write -",
    }),
  ];
}

/** On a percent bench every reading names a range whose full flow the bench states. One error a range, and one for all that name none. */
export function rangesKnown(bench: JobBench, table: ReadingsTable): readonly Diagnostic[] {
  if (bench.reads !== "percent") return [];
  const ranges = bench.ranges ?? {};
  const reported = new Set<string>();
  return table.rows.flatMap((row) =>
    SIDES.flatMap((side) => {
      const reading = row.readings[side];
      const range = row.range[side];
      // One column may name the range of both sides.
      const key = range ? `${range.span.start} ${range.text}` : "";
      if (reading?.value === undefined) return [];
      if (flowOfRange(ranges, range?.text, side) !== undefined) return overRange(reading);
      if (reported.has(key) || reported.has(`${side} ${range?.text}`)) return [];
      reported.add(key).add(`${side} ${range?.text}`);
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
          hint: near
            ? `did you mean ${near}?`
            : known.length > 0
              ? `its ranges are ${known.join(", ")}; for another ${write}`
              : write,
        }),
      ];
    }),
  );
}
