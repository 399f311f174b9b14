import { error, warning } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { appendUnit } from "../../units/append-unit.ts";
import { toSi } from "../../units/convert.ts";
import { meantBetween } from "../../units/mistypings.ts";
import { type StageFacts, valvesOf } from "../inherit.ts";
import type { ReadingsRow } from "../readings/readings-row.ts";
import type { ReadingsTable } from "../readings/readings-table.ts";
import type { RunTable } from "../readings/run-tables.ts";
import { SIDES } from "../schema/port.ts";
import { hasImpossibleValve } from "./valve-size.ts";

/** Common practice: heads are flowed to 0.25–0.45 lift ÷ diameter; above the first limit no valve is lifted. */
const MOST = 0.6;
/** Far below any lift: typed in another unit. */
const FAR_BELOW = 0.035;
/** Lifts from which on a table tells its unit by its highest: the first rows of any are far below the valve. */
const LEAST_LIFTS = 4;
/** Highest lift where no valve is stated, and a usual valve [m]. */
const MOST_WITHOUT_VALVE = 1.5 * 0.0254;
const USUAL_VALVE = 0.038;
/** Highest lift ÷ diameter of a table that looks right. */
const USUAL = { low: 0.1, high: 0.5 } as const;

/** Lifts that no valve has: refused, a table of them once; and lifts far too small for the valve. */
export const lifts = (stages: readonly StageFacts[], tables: readonly RunTable[]): readonly Diagnostic[] =>
  tables.flatMap(({ stage, table }) => {
    if (SIDES.some((side) => stages[stage]?.[side] && hasImpossibleValve(stages[stage][side]))) return [];
    const heads = SIDES.flatMap((side) => {
      const port = stages[stage]?.[side];
      return port ? valvesOf(port, 1).flatMap((valve) => valve.head ?? []) : [];
    });
    const valve = heads.length > 0 ? Math.max(...heads) : undefined;
    return checkLifts(table, valve);
  });

function checkLifts(table: ReadingsTable, valve: number | undefined): readonly Diagnostic[] {
  const most = valve === undefined ? MOST_WITHOUT_VALVE : MOST * valve;
  const last = highest(table);
  const over = table.rows.filter((row) => row.lift.value > most * (1 + 1e-9));
  const column = table.columns.find(({ name }) => name === "lift")!;
  const unit = likelyUnit(Number(last.lift.text), valve ?? USUAL_VALVE, column.unit);
  const looks = unit && `these lifts look like ${NAMES[unit] ?? unit} under ${NAMES[column.unit ?? ""] ?? column.unit}`;
  if (looks && over.length > table.rows.length / 2)
    return [
      error("job/lift-unit", looks, column.span, {
        note: `${typedLift(last, column.unit)} is more than a valve lifts`,
        hint: `write lift/${unit}`,
      }),
    ];
  const [first] = over;
  if (first) {
    const note = over.length > 1 ? { note: `and ${over.length - 1} more lifts of this table` } : {};
    return [{ ...tooHigh(first, table, most, valve, column.unit), ...note }];
  }
  const count = new Set(table.rows.map(({ lift }) => lift.value)).size;
  if (!looks || count < LEAST_LIFTS || last.lift.value / (valve ?? USUAL_VALVE) >= FAR_BELOW) return [];
  return [
    warning("job/lift-unit", looks, column.span, {
      note: `the highest, ${typedLift(last, column.unit)}, is next to nothing for this valve`,
      hint: `write lift/${unit}`,
    }),
  ];
}

const highest = ({ rows }: ReadingsTable) => rows.reduce((a, b) => (b.lift.value > a.lift.value ? b : a));

const NAMES: Readonly<Record<string, string>> = {
  in: "inches",
  mm: "millimetres",
  cm: "centimetres",
  thou: "thousandths",
};

/** The unit in which a table's highest lift suits the valve, if it does not in its own. */
function likelyUnit(lift: number, valve: number, own: string | undefined): string | undefined {
  const suits = (unit: string) => {
    const share = toSi(lift, "length", unit) / valve;
    return share >= USUAL.low && share <= USUAL.high;
  };
  if (!Number.isFinite(lift) || own === undefined || suits(own)) return undefined;
  return ["mm", "in", "thou", "cm"].find((unit) => unit !== own && suits(unit));
}

const typedLift = ({ lift: { text } }: ReadingsRow, unit: string | undefined) => appendUnit(text, "length", unit);

function tooHigh(
  row: ReadingsRow,
  { rows }: ReadingsTable,
  most: number,
  valve: number | undefined,
  unit: string | undefined,
): Diagnostic {
  const at = rows.indexOf(row);
  const [before, after] = [rows[at - 1]?.lift.value ?? 0, rows[at + 1]?.lift.value ?? most];
  const high = after <= most && after > before ? after : most;
  const meant = meantBetween(row.lift.text, before < high ? before : 0, high, row.lift.value / Number(row.lift.text));
  const what = valve === undefined ? "more than any valve lifts" : `more than 0.6 of the valve's diameter`;
  const hint = meant === undefined ? "check the lift and its unit" : `did you mean ${meant}?`;
  return error("job/lift", `a lift of ${typedLift(row, unit)} is ${what}`, row.lift.span, { hint });
}
