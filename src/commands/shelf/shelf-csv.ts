import { csv, number, text } from "../../embed/csv.ts";
import type { DisplayUnits } from "../../model/model.ts";
import { SIDES } from "../../model/model.ts";
import { verdictWords } from "../../sheet/words/verdicts.ts";
import { fromSi } from "../../units/convert.ts";
import type { ShelfEntry } from "./shelf-entry.ts";
import { SHELF_KEYS } from "./shelf-keys.ts";

const KEYS = Object.entries(SHELF_KEYS);

/** Every key of the shelf in the units shown, a row a job; then verdicts, and why a job was refused. */
export const shelfCsv = (entries: readonly ShelfEntry[], units: DisplayUnits): string =>
  csv([
    [
      ...KEYS.map(([name, key]) =>
        key.holds === "text" || key.unit(units) === "plain" ? name : `${name} (${key.unit(units)})`,
      ),
      ...SIDES.map((side) => `${side}.verdict`),
      "refused",
    ],
    ...entries.map((entry) => [
      ...KEYS.map(([, key]) => {
        if (key.holds === "text") return text(key.of(entry) ?? "");
        const si = key.of(entry);
        return si === undefined ? "" : number(fromSi(si, key.kind, key.unit(units)));
      }),
      ...SIDES.map((side) => verdict(entry, side)),
      text(entry.refused?.text ?? ""),
    ]),
  ]);

function verdict(entry: ShelfEntry, side: (typeof SIDES)[number]): string {
  const change = entry[side]?.latest_change;
  if (!change) return "";
  const words = change.verdict_withheld ? verdictWords(change.verdict, change).text : change.verdict;
  return change.like_for_like ? words : `${words}; measured unlike`;
}
