import { escapeFormula, formatCsv, formatNumber } from "../../embed/csv.ts";
import { type DisplayUnits, SIDES, type Side } from "../../model/model.ts";
import { verdictWords } from "../../sheet/words/verdicts.ts";
import { fromSi } from "../../units/convert.ts";
import type { Kind } from "../../units/table.ts";
import { qualifyUnlike } from "./shelf-cells.ts";
import type { ShelfEntry, ShelfSide } from "./shelf-entry.ts";

/** A key to sort and filter by: a text, or an SI number of a kind. */
export type ShelfKey =
  | { readonly holds: "text"; readonly of: (entry: ShelfEntry) => string | undefined }
  | {
      readonly holds: "number";
      readonly kind: Kind;
      /** Unit of a bare number: the one displayed. */
      readonly unit: (units: DisplayUnits) => string;
      readonly of: (entry: ShelfEntry) => number | undefined;
    };

const textKey = (of: (entry: ShelfEntry) => string | undefined): ShelfKey => ({ holds: "text", of });
const quantityKey = (
  kind: "length" | "area" | "flow" | "pressure",
  of: (entry: ShelfEntry) => number | undefined,
): ShelfKey => ({ holds: "number", kind, unit: (units) => units[kind], of });
const ratioKey = (unit: "%" | "plain", of: (entry: ShelfEntry) => number | undefined): ShelfKey => ({
  holds: "number",
  kind: "ratio",
  unit: () => unit,
  of,
});

const flowAt = (side: ShelfSide | undefined, at: string) => side?.compared.find((one) => one.at === at)?.flow_m3_s;

/** Keys of one side, without the side's name. */
const sideKeys = (side: Side): Readonly<Record<string, ShelfKey>> => ({
  valve: quantityKey("length", (entry) => entry[side]?.valve_diameter_m),
  throat: quantityKey("length", (entry) => entry[side]?.throat_m),
  pinch: quantityKey("area", (entry) => entry[side]?.pinch_area_m2),
  valves: ratioKey("plain", (entry) => entry[side] && entry[side].valves * entry[side].ports),
  peak: quantityKey("flow", (entry) => entry[side]?.peak?.flow_m3_s),
  peak_lift: quantityKey("length", (entry) => entry[side]?.peak?.lift_m),
  low: quantityKey("flow", (entry) => flowAt(entry[side], "low")),
  mid: quantityKey("flow", (entry) => flowAt(entry[side], "mid")),
  high: quantityKey("flow", (entry) => flowAt(entry[side], "high")),
  cam: quantityKey("flow", (entry) => flowAt(entry[side], "cam")),
  coefficient: ratioKey("plain", (entry) => entry[side]?.curtain_coefficient_at_quarter),
  change: ratioKey("%", (entry) => entry[side]?.latest_change?.ratio),
});

/** Keys by name: `number`, `intake.valve`. */
export const SHELF_KEYS: Readonly<Record<string, ShelfKey>> = {
  number: textKey((entry) => entry.number),
  head: textKey((entry) => entry.head),
  file: textKey((entry) => entry.file),
  kind: textKey((entry) => entry.kind),
  material: textKey((entry) => entry.material),
  stage: textKey((entry) => entry.stage),
  issued: textKey((entry) => entry.issued),
  entry: textKey((entry) => entry.conditions?.intake_entry),
  bench: textKey((entry) => entry.conditions?.bench),
  bore: quantityKey("length", (entry) => entry.bore_m),
  pressure: quantityKey("pressure", (entry) => entry.conditions?.test_pressure_Pa),
  ...Object.fromEntries(
    SIDES.flatMap((side) => Object.entries(sideKeys(side)).map(([name, key]) => [`${side}.${name}`, key] as const)),
  ),
};

const KEYS = Object.entries(SHELF_KEYS);

/** Formats all keys in display units, one row a job, then verdicts and the error of a refused job. */
export const formatShelfCsv = (entries: readonly ShelfEntry[], units: DisplayUnits): string =>
  formatCsv([
    [
      ...KEYS.map(([name, key]) =>
        key.holds === "text" || key.unit(units) === "plain" ? name : `${name} (${key.unit(units)})`,
      ),
      ...SIDES.map((side) => `${side}.verdict`),
      "refused",
    ],
    ...entries.map((entry) => [
      ...KEYS.map(([, key]) => {
        if (key.holds === "text") return escapeFormula(key.of(entry) ?? "");
        const si = key.of(entry);
        return si === undefined ? "" : formatNumber(fromSi(si, key.kind, key.unit(units)));
      }),
      ...SIDES.map((side) => verdict(entry, side)),
      escapeFormula(entry.refused?.text ?? ""),
    ]),
  ]);

function verdict(entry: ShelfEntry, side: (typeof SIDES)[number]): string {
  const change = entry[side]?.latest_change;
  if (!change) return "";
  const words = change.verdict_withheld ? verdictWords(change.verdict, change).text : change.verdict;
  return qualifyUnlike(words, change);
}
