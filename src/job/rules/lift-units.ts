import { warning } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { type StageFacts, valvesOf } from "../inherit.ts";
import type { RunTable } from "../readings/run-tables.ts";
import { SIDES } from "../schema/port.ts";

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
