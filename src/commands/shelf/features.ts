import { SIDES, type Side } from "../../model/model.ts";
import type { ShelfEntry } from "./shelf-entry.ts";

/** One thing by which two heads are alike or not. */
export type Feature = {
  readonly name: string;
  /** How much it matters beside the others. */
  readonly weight: number;
} & (
  | {
      readonly holds: "size";
      readonly kind: "length" | "area" | "pressure" | "count";
      /** Relative difference that counts as one: what a porter would call another size. */
      readonly scale: number;
      /** Relative difference that is none. */
      readonly within: number;
      readonly of: (entry: ShelfEntry) => number | undefined;
    }
  | {
      readonly holds: "word";
      readonly of: (entry: ShelfEntry) => string | undefined;
      /** Whether two that both know it have the same. */
      readonly alike: (a: ShelfEntry, b: ShelfEntry) => boolean;
    }
);

const size = (
  name: string,
  weight: number,
  scale: number,
  kind: "length" | "area" | "pressure" | "count",
  of: (entry: ShelfEntry) => number | undefined,
  within = 0,
): Feature => ({ holds: "size", name, weight, scale, kind, within, of });
const word = (
  name: string,
  weight: number,
  of: (entry: ShelfEntry) => string | undefined,
  alike: (a: ShelfEntry, b: ShelfEntry) => boolean = (a, b) => of(a) === of(b),
): Feature => ({ holds: "word", name, weight, of, alike });

/** The same words, however they were typed: `Clay-radius` is `clay  radius`. */
const folded = (typed: string | undefined): string | undefined =>
  typed
    ?.normalize("NFKC")
    .toLowerCase()
    .replace(/[\s_\u2010-\u2015-]+/g, " ")
    .replace(/^ | ?[.;,]? ?$/g, "");

/** Valves and ports decide what kind of head it is; then come its sizes. The intake weighs more: it is what is mostly asked for. */
function portFeatures(side: Side): readonly Feature[] {
  const more = side === "intake" ? 1 : 0.7;
  return [
    size(`${side} valves a cylinder`, 6 * more, 0.1, "count", (e) => e[side] && e[side].valves * e[side].ports),
    size(`${side} ports a cylinder`, 4 * more, 0.1, "count", (e) => e[side]?.ports),
    size(`${side} valve`, 4 * more, 0.02, "length", (e) => e[side]?.valve_diameter_m),
    size(`${side} throat`, 2 * more, 0.03, "length", (e) => e[side]?.throat_m),
    size(`${side} pinch`, 3 * more, 0.08, "area", (e) => e[side]?.pinch_area_m2),
  ];
}

/**
 * All that is looked at, with weights and scales. They are our own, chosen by common practice: valves and ports first, then
 * valve, pinch and bore, then how the head was flowed, since unlike conditions can be told but not taken out of the figures.
 */
export const FEATURES: readonly Feature[] = [
  ...SIDES.flatMap(portFeatures),
  size("bore", 2, 0.02, "length", (e) => e.bore_m),
  // Flow goes with the root of the pressure: one per cent of it is half a per cent of flow, which no bench tells.
  size("test pressure", 1.5, 0.25, "pressure", (e) => e.conditions?.test_pressure_Pa, 0.01),
  size("bore fixture", 1, 0.03, "length", (e) => e.conditions?.bore_fixture_m),
  word("intake entry", 1.5, (e) => folded(e.conditions?.intake_entry)),
  word("exhaust pipe", 1.5, (e) => e.conditions && (e.conditions.exhaust_pipe ? "pipe" : "none"), samePipe),
  word("intake attachment", 1.5, (e) => e.conditions && (folded(e.conditions.on_intake) ?? "none")),
  word("exhaust attachment", 1.5, (e) => e.conditions && (folded(e.conditions.on_exhaust) ?? "none")),
];

/** Pipes are one where what is stated of both agrees: 1 1/2 in and 38 mm across, 8 in and 200 mm long. */
const SAME_ACROSS = 0.01;
const SAME_LONG = 0.03;

function samePipe({ conditions: a }: ShelfEntry, { conditions: b }: ShelfEntry): boolean {
  const [one, other] = [a?.exhaust_pipe, b?.exhaust_pipe];
  if (!one || !other) return !one && !other;
  const agree = (x: number | undefined, y: number | undefined, within: number) =>
    x === undefined || y === undefined || Math.abs(Math.log(x / y)) <= within;
  return agree(one.diameter_m, other.diameter_m, SAME_ACROSS) && agree(one.length_m, other.length_m, SAME_LONG);
}
