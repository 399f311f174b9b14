import { type DisplayUnits, type Shop, SIDES } from "../../model/model.ts";
import { shopMasthead } from "../../sheet/blocks/masthead.ts";
import type { Part, Sheet, TableCell } from "../../sheet/content.ts";
import { presentItems } from "../../sheet/section.ts";
import { parseWithheld } from "../../sheet/withheld.ts";
import { dateWords } from "../../sheet/words/dates.ts";
import { verdictWords } from "../../sheet/words/verdicts.ts";
import type { Theme } from "../../theme/theme.ts";
import { unitSymbol } from "../../units/show.ts";
import { shelfNote, sideCells } from "./shelf-cells.ts";
import { isSound, type ShelfEntry, type SoundEntry } from "./shelf-entry.ts";

type ShelfStyle = {
  readonly shop: Shop;
  readonly theme: Theme;
  readonly units: DisplayUnits;
  readonly testPressure: number;
};

/** Whether the job withholds its pinch, which the printed index then leaves out as its sheets do. */
export const withholdsPinch = (entry: ShelfEntry): boolean => parseWithheld(entry.hold_back ?? []).pinch;

/** Builds the index to print in the shop's theme, dated by the latest job. */
export function buildShelfSheet(
  entries: readonly ShelfEntry[],
  { shop, theme, units, testPressure }: ShelfStyle,
): Sheet {
  const sound = entries.filter(isSound);
  const issued =
    sound
      .map((entry) => entry.issued)
      .toSorted()
      .at(-1) ?? "1970-01-01";
  const title = shop.name ? `Heads measured by ${shop.name}` : "Heads measured";
  const groups = sound.map((entry) => rowsOf(entry, units));
  const parts: readonly Part[] = [
    ...shopMasthead(shop),
    { kind: "heading", level: 1, text: title },
    ...shelfNote(testPressure, units)
      .slice(0, 1)
      .map((text): Part => ({ kind: "paragraph", style: "small", text })),
    {
      kind: "paragraph",
      style: "caption",
      text: "C¼: coefficient on the curtain at 0.25 lift ÷ diameter. Change: average, from the stage before the last. An empty cell was not measured or is not shown.",
    },
    {
      kind: "table",
      columns: [
        { title: "Job", align: "left" },
        { title: "Head", align: "left" },
        { title: "Valves", align: "left" },
        { title: "Size", unit: unitSymbol("length", units.length), align: "decimal" },
        { title: "Peak", unit: unitSymbol("flow", units.flow), align: "decimal" },
        { title: "at lift", unit: unitSymbol("length", units.length), align: "decimal" },
        { title: "C¼", align: "decimal" },
        { title: "Pinch", unit: unitSymbol("area", units.area), align: "decimal" },
        { title: "Latest change", align: "left" },
      ],
      rows: groups.flat(),
      rowHeads: true,
      fifths: false,
      together: groups.map((rows) => rows.length),
      notes: [],
    },
  ];
  return {
    template: "shelf",
    documentTitle: title,
    ...(shop.name ? { author: shop.name } : {}),
    subject: "Index of cylinder heads, as measured",
    identifier: `${title}, to ${issued}`,
    language: "en",
    issued,
    theme,
    furniture: {
      left: "Index of heads",
      middle: presentItems<string>([shop.name, `to ${dateWords(issued)}`]).join(" · "),
    },
    rows: [{ cells: [{ block: { name: "shelf", parts, split: true, priority: 100 }, from: 0, span: 6 }] }],
    onePage: false,
  };
}

/** One row a side; the second names the stage and the day of issue below the head's name. */
function rowsOf(entry: SoundEntry, units: DisplayUnits): readonly (readonly TableCell[])[] {
  const what = entry.kind === "product" ? "product" : entry.stage;
  const sides = SIDES.flatMap((side) => {
    const cells = sideCells(entry, side, units);
    return cells ? [{ side, cells }] : [];
  });
  return sides.map(({ side, cells }, k): TableCell[] => {
    const change = entry[side]?.latest_change;
    const mark = change && verdictWords(change.verdict, change).mark;
    return [
      k === 0 ? { text: entry.number, strong: true } : { text: entry.number, quiet: true },
      k === 0 ? { text: entry.head } : { text: presentItems<string>([what, entry.issued]).join(", "), quiet: true },
      { text: cells.count > 1 ? `${side} ×${cells.count}` : side },
      { text: cells.size },
      { text: cells.peak, strong: true },
      { text: cells.lift },
      { text: cells.coefficient },
      { text: withholdsPinch(entry) ? "" : cells.pinch },
      { text: cells.change, ...(mark ? { mark } : {}) },
    ];
  });
}
