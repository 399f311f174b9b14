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
      readonly of: (entry: ShelfEntry) => number | undefined;
    }
  | { readonly holds: "word"; readonly of: (entry: ShelfEntry) => string | undefined }
);

const size = (
  name: string,
  weight: number,
  scale: number,
  kind: "length" | "area" | "pressure" | "count",
  of: (entry: ShelfEntry) => number | undefined,
): Feature => ({ holds: "size", name, weight, scale, kind, of });
const word = (name: string, weight: number, of: (entry: ShelfEntry) => string | undefined): Feature => ({
  holds: "word",
  name,
  weight,
  of,
});

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
  size("test pressure", 1.5, 0.25, "pressure", (e) => e.conditions?.test_pressure_Pa),
  size("bore fixture", 1, 0.03, "length", (e) => e.conditions?.bore_fixture_m),
  word("intake entry", 1.5, (e) => e.conditions?.intake_entry?.trim().toLowerCase()),
  word("exhaust pipe", 1.5, (e) => e.conditions && pipeOf(e.conditions.exhaust_pipe)),
  word("intake attachment", 1.5, (e) => e.conditions && (e.conditions.on_intake?.trim().toLowerCase() ?? "none")),
  word("exhaust attachment", 1.5, (e) => e.conditions && (e.conditions.on_exhaust?.trim().toLowerCase() ?? "none")),
];

/** Pipes of one size to the tenth of a millimetre are the same pipe. */
function pipeOf(pipe: NonNullable<ShelfEntry["conditions"]>["exhaust_pipe"]): string {
  if (!pipe) return "none";
  const tenths = (si: number | undefined) => (si === undefined ? "?" : Math.round(si * 1e4));
  return `${tenths(pipe.diameter_m)} by ${tenths(pipe.length_m)}`;
}
