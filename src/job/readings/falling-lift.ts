import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { meantBetween } from "../../units/mistypings.ts";
import type { ReadingsRow } from "./readings-row.ts";

/** The error of a lift below the one above it: of the two the one is wrong without which the others rise. */
export function fallingLift(rows: readonly ReadingsRow[], falls: number): Diagnostic {
  const [above, row] = [rows[falls - 1]!, rows[falls]!];
  const [before, after] = [rows[falls - 2]?.lift.value ?? 0, rows[falls + 1]?.lift.value];
  const rises = (low: number, high: number | undefined) => high === undefined || high > low;
  const meantAbove = meantLift(above, before, row.lift.value);
  const meantHere = meantLift(row, above.lift.value, after);
  const aboveIsWrong =
    rises(before, row.lift.value) &&
    (!rises(above.lift.value, after) || (falls > 1 && meantHere === undefined && meantAbove !== undefined));
  const [wrong, meant] = aboveIsWrong ? [above, meantAbove] : [row, meantHere];
  return {
    severity: "error",
    code: "job/readings-lift-order",
    message: aboveIsWrong
      ? `lift \`${above.lift.text}\` is above \`${row.lift.text}\` in the row below`
      : `lift \`${row.lift.text}\` is below \`${above.lift.text}\` in the row above`,
    at: wrong.lift.span,
    note: "lifts may fall only after the table's highest lift, as a second sweep",
    hint: meant === undefined ? "check both lifts" : `did you mean ${meant}?`,
  };
}

function meantLift({ lift }: ReadingsRow, low: number, high: number | undefined): string | undefined {
  const scale = lift.value / Number(lift.text);
  if (!Number.isFinite(scale) || high === undefined) return undefined;
  const meant = meantBetween(lift.text, low, high, scale);
  return meant?.includes(".") ? meant.padEnd(lift.text.length, "0") : meant;
}
