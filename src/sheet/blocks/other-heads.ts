import type { TableCell } from "../content.ts";
import { type BlockBuilder, endStages, otherHeadComparisons } from "../context.ts";
import { formatPercentDigits, formatSignedPercentDigits } from "../display.ts";
import { EMPTY_CELL } from "../flow-columns.ts";
import { section } from "../section.ts";
import { pairDifferenceWords } from "../words/conditions.ts";
import { capitalize } from "../words/text.ts";
import { averageVerdict, mayPrint, verdictWords } from "../words/verdicts.ts";

/** This head beside others of the shop, under their labels. */
export const otherHeadsTable: BlockBuilder = (context, place) => {
  const { last } = endStages(context);
  const pairs = context.sides.flatMap((side) => otherHeadComparisons(context, side));
  const rows = pairs.flatMap((pair): (readonly TableCell[])[] => {
    const verdict = averageVerdict(pair);
    if (verdict === undefined) return [];
    // A verdict is on the later head of a pair: where that is another head, it is not about this one.
    const ours = pair.to.label === undefined;
    if (!ours) return [];
    const u = pair.mean_change_uncertainty_ratio;
    return [
      [
        { text: pair.from.label ?? pair.from.stage },
        { text: capitalize(pair.side) },
        mayPrint(verdict, u) ? { text: formatSignedPercentDigits(pair.mean_change_ratio as number) } : EMPTY_CELL,
        mayPrint(verdict, u) ? { text: formatPercentDigits(u), quiet: true } : EMPTY_CELL,
        qualifyVerdict(verdictWords(verdict, pair), pair.like_for_like),
      ],
    ];
  });
  if (rows.length === 0 || !last) return [];
  return section(place, "Beside other heads", [
    {
      kind: "table",
      columns: [
        { title: `${last.name}, against`, align: "left", weight: 2 },
        { title: "Side", align: "left" },
        { title: "On average", unit: "%", align: "decimal" },
        { title: "±", unit: "%", align: "decimal" },
        { title: "Verdict", align: "left", weight: 2 },
      ],
      rows,
      rowHeads: true,
      fifths: false,
      notes: pairs.flatMap((pair) => pairDifferenceWords(pair) ?? []),
    },
  ]);
};

/** A verdict over unlike conditions never stands alone. */
const qualifyVerdict = (words: ReturnType<typeof verdictWords>, alike: boolean) =>
  alike ? words : { ...words, text: `${words.text}, conditions differ` };
