import { csv, number, text } from "../../embed/csv.ts";
import type { DisplayUnits } from "../../model/model.ts";
import { SIDES } from "../../model/model.ts";
import { verdictWords } from "../../sheet/words/verdict-words.ts";
import { fromSi } from "../../units/convert.ts";
import type { ShelfEntry } from "./shelf-entry.ts";
import { SHELF_KEYS } from "./shelf-keys.ts";

/** Every key of the shelf as a column, in the units shown, one row a job; then verdicts, and why a job was refused. */
export function shelfCsv(entries: readonly ShelfEntry[], units: DisplayUnits): string {
  const keys = Object.entries(SHELF_KEYS);
  const head = [
    ...keys.map(([name, key]) =>
      key.holds === "text" || key.unit(units) === "plain" ? name : `${name} (${key.unit(units)})`,
    ),
    ...SIDES.map((side) => `${side}.verdict`),
    "refused",
  ];
  const rows = entries.map((entry) => [
    ...keys.map(([, key]) => {
      if (key.holds === "text") return text(key.of(entry) ?? "");
      const si = key.of(entry);
      return si === undefined ? "" : number(fromSi(si, key.kind, key.unit(units)));
    }),
    ...SIDES.map((side) => verdict(entry, side)),
    text(entry.refused?.text ?? ""),
  ]);
  return csv([head, ...rows]);
}

function verdict(entry: ShelfEntry, side: (typeof SIDES)[number]): string {
  const change = entry[side]?.latest_change;
  if (!change) return "";
  const words = change.verdict_withheld ? verdictWords(change.verdict, change).text : change.verdict;
  return change.like_for_like ? words : `${words}; measured unlike`;
}
