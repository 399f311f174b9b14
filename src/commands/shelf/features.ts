import { SIDES, type Side } from "../../model/model.ts";
import type { ShelfEntry } from "./shelf-entry.ts";

/** A feature by which two heads are compared. */
export type Feature = {
  readonly name: string;
  /** Weight in the distance. */
  readonly weight: number;
} & (
  | {
      readonly holds: "size";
      readonly kind: "length" | "area" | "pressure" | "count";
      /** Relative difference that counts as 1: another size by common practice. */
      readonly scale: number;
      /** Tolerance: a smaller relative difference counts as 0. */
      readonly within: number;
      readonly of: (entry: ShelfEntry) => number | undefined;
    }
  | {
      readonly holds: "word";
      readonly of: (entry: ShelfEntry) => string | undefined;
      /** Whether two entries that both state the feature are equal in it. */
      readonly alike: (a: ShelfEntry, b: ShelfEntry) => boolean;
    }
);

const sizeFeature = (
  name: string,
  weight: number,
  scale: number,
  kind: "length" | "area" | "pressure" | "count",
  of: (entry: ShelfEntry) => number | undefined,
  within = 0,
): Feature => ({ holds: "size", name, weight, scale, kind, within, of });
const wordFeature = (
  name: string,
  weight: number,
  of: (entry: ShelfEntry) => string | undefined,
  alike: (a: ShelfEntry, b: ShelfEntry) => boolean = (a, b) => of(a) === of(b),
): Feature => ({ holds: "word", name, weight, of, alike });

/** Normalises case, blanks, dashes and final punctuation: `Clay-radius` equals `clay  radius`. */
const normalizeWords = (typed: string | undefined): string | undefined =>
  typed
    ?.normalize("NFKC")
    .toLowerCase()
    .replace(/[\s_\u2010-\u2015-]+/g, " ")
    .replace(/^ | ?[.;,]? ?$/g, "");

/** Features of one side: valves and ports first, then sizes. The intake weighs more, as most comparisons are about it. */
function portFeatures(side: Side): readonly Feature[] {
  const more = side === "intake" ? 1 : 0.7;
  return [
    sizeFeature(`${side} valves a cylinder`, 6 * more, 0.1, "count", (e) => e[side] && e[side].valves * e[side].ports),
    sizeFeature(`${side} ports a cylinder`, 4 * more, 0.1, "count", (e) => e[side]?.ports),
    sizeFeature(`${side} valve`, 4 * more, 0.02, "length", (e) => e[side]?.valve_diameter_m),
    sizeFeature(`${side} throat`, 2 * more, 0.03, "length", (e) => e[side]?.throat_m),
    sizeFeature(`${side} pinch`, 3 * more, 0.08, "area", (e) => e[side]?.pinch_area_m2),
  ];
}

/**
 * All features with weights and scales. They are our own, chosen by common practice: valves and ports first, then valve, pinch and
 * bore, then the conditions of flowing, as figures cannot be corrected for unlike conditions.
 */
export const FEATURES: readonly Feature[] = [
  ...SIDES.flatMap(portFeatures),
  sizeFeature("bore", 2, 0.02, "length", (e) => e.bore_m),
  // Flow varies with the root of the pressure: 1 % of pressure is 0.5 % of flow, below what a bench resolves.
  sizeFeature("test pressure", 1.5, 0.25, "pressure", (e) => e.conditions?.test_pressure_Pa, 0.01),
  sizeFeature("bore fixture", 1, 0.03, "length", (e) => e.conditions?.bore_fixture_m),
  wordFeature("intake entry", 1.5, (e) => normalizeWords(e.conditions?.intake_entry)),
  wordFeature("exhaust pipe", 1.5, (e) => e.conditions && (e.conditions.exhaust_pipe ? "pipe" : "none"), samePipe),
  wordFeature("intake attachment", 1.5, (e) => e.conditions && (normalizeWords(e.conditions.on_intake) ?? "none")),
  wordFeature("exhaust attachment", 1.5, (e) => e.conditions && (normalizeWords(e.conditions.on_exhaust) ?? "none")),
];

/** Tolerances of equal pipes: 1 1/2 in equals 38 mm across, 8 in equals 200 mm long. */
const SAME_ACROSS = 0.01;
const SAME_LONG = 0.03;

function samePipe({ conditions: a }: ShelfEntry, { conditions: b }: ShelfEntry): boolean {
  const [one, other] = [a?.exhaust_pipe, b?.exhaust_pipe];
  if (!one || !other) return !one && !other;
  const agree = (x: number | undefined, y: number | undefined, within: number) =>
    x === undefined || y === undefined || Math.abs(Math.log(x / y)) <= within;
  return agree(one.diameter_m, other.diameter_m, SAME_ACROSS) && agree(one.length_m, other.length_m, SAME_LONG);
}
