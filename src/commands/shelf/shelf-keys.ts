import { type DisplayUnits, SIDES, type Side } from "../../model/model.ts";
import type { Kind } from "../../units/table.ts";
import type { ShelfEntry, ShelfSide } from "./shelf-entry.ts";

/** Something that the shelf can be sorted and filtered by: a text, or an SI number of a kind. */
export type ShelfKey =
  | { readonly holds: "text"; readonly of: (entry: ShelfEntry) => string | undefined }
  | {
      readonly holds: "number";
      readonly kind: Kind;
      /** The unit that a bare number takes: the one that is shown. */
      readonly unit: (units: DisplayUnits) => string;
      readonly of: (entry: ShelfEntry) => number | undefined;
    };

const text = (of: (entry: ShelfEntry) => string | undefined): ShelfKey => ({ holds: "text", of });
const quantity = (
  kind: "length" | "area" | "flow" | "pressure",
  of: (entry: ShelfEntry) => number | undefined,
): ShelfKey => ({ holds: "number", kind, unit: (units) => units[kind], of });
const ratio = (unit: "%" | "plain", of: (entry: ShelfEntry) => number | undefined): ShelfKey => ({
  holds: "number",
  kind: "ratio",
  unit: () => unit,
  of,
});

const flowAt = (side: ShelfSide | undefined, at: string) => side?.compared.find((one) => one.at === at)?.flow_m3_s;

/** Keys of one side, without the side's name. */
const sideKeys = (side: Side): Readonly<Record<string, ShelfKey>> => ({
  valve: quantity("length", (entry) => entry[side]?.valve_diameter_m),
  throat: quantity("length", (entry) => entry[side]?.throat_m),
  pinch: quantity("area", (entry) => entry[side]?.pinch_area_m2),
  valves: ratio("plain", (entry) => entry[side] && entry[side].valves * entry[side].ports),
  peak: quantity("flow", (entry) => entry[side]?.peak?.flow_m3_s),
  peak_lift: quantity("length", (entry) => entry[side]?.peak?.lift_m),
  low: quantity("flow", (entry) => flowAt(entry[side], "low")),
  mid: quantity("flow", (entry) => flowAt(entry[side], "mid")),
  high: quantity("flow", (entry) => flowAt(entry[side], "high")),
  cam: quantity("flow", (entry) => flowAt(entry[side], "cam")),
  coefficient: ratio("plain", (entry) => entry[side]?.curtain_coefficient_at_quarter),
  change: ratio("%", (entry) => entry[side]?.latest_change?.ratio),
});

/** Every key by the name that is typed: `number`, `intake.valve`. */
export const SHELF_KEYS: Readonly<Record<string, ShelfKey>> = {
  number: text((entry) => entry.number),
  head: text((entry) => entry.head),
  file: text((entry) => entry.file),
  kind: text((entry) => entry.kind),
  material: text((entry) => entry.material),
  stage: text((entry) => entry.stage),
  issued: text((entry) => entry.issued),
  entry: text((entry) => entry.conditions?.intake_entry),
  bench: text((entry) => entry.conditions?.bench),
  bore: quantity("length", (entry) => entry.bore_m),
  pressure: quantity("pressure", (entry) => entry.conditions?.test_pressure_Pa),
  ...Object.fromEntries(
    SIDES.flatMap((side) => Object.entries(sideKeys(side)).map(([name, key]) => [`${side}.${name}`, key] as const)),
  ),
};
