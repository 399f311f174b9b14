import type { KeyRow } from "../../content.ts";
import type { BlockBuilder } from "../../context.ts";
import { presentItems, section } from "../../section.ts";
import { sideHeads } from "../../side-by-side/heads.ts";
import { dateWords } from "../../words/dates.ts";

/** The letters of the heads; ticket, stamp and date only of the customer's own. */
export const sideHeadsRow: BlockBuilder = (context, place) => {
  const heads = sideHeads(context);
  const pairs = heads.map(({ letter, label, known }): KeyRow["pairs"][number] => {
    const note = presentItems<string>([
      known?.number,
      known?.stamped && `stamped ${known.stamped}`,
      known?.date && dateWords(known.date),
    ]).join(", ");
    return { label: `Head ${letter}`, value: label, ...(note === "" ? {} : { note }) };
  });
  return section(place, undefined, pairs.length < 2 ? [] : [{ kind: "key-row", pairs }]);
};
