import type { ValveFigures } from "../../../figures/figures.ts";
import { type Context, endStages } from "../../context.ts";
import { sharedDecimals } from "../../display.ts";

/** The valves of the delivered stage. */
export const valvesOf = (context: Context): readonly ValveFigures[] =>
  endStages(context).last?.figures.valve_train?.valves ?? [];

/** A valve's name as it is read: "2a in". */
export const valveLabel = ({ cylinder, letter = "", side }: ValveFigures): string =>
  `${cylinder}${letter}\u00a0${side === "intake" ? "in" : "ex"}`;

/** Decimals of a clearance: a thousandth of a millimetre, a ten-thousandth of an inch. */
const FINE: Readonly<Record<string, number>> = { in: 4, mm: 3 };

/** Lengths of one kind, with decimals alike; `fine` for clearances. */
export function lengthDigits(
  context: Context,
  values: readonly (number | undefined)[],
  fine = false,
): (value: number) => string {
  const { display } = context;
  const known = values.flatMap((value) => value ?? []);
  const shared = sharedDecimals(
    display,
    "length",
    known.map((value) => display.number("length", value)),
  );
  const decimals = fine ? Math.max(shared, FINE[display.unit("length")] ?? 0) : shared;
  return (value) => display.digits("length", value, decimals);
}

/** What is not known. */
export const NOT_TAKEN = "–";

const UNIT_WORDS: Readonly<Record<string, string>> = { in: "inches", mm: "millimetres", cm: "centimetres" };

/** The unit of lengths for a heading. */
export function unitWord({ display }: Context): string {
  const unit = display.unit("length");
  return UNIT_WORDS[unit] ?? unit;
}
