import type { TableCell } from "../content.ts";
import { type BlockBuilder, endStages, otherHeads } from "../context.ts";
import { NONE } from "../flow-columns.ts";
import { percentDigits, signedPercentDigits } from "../percent.ts";
import { section } from "../section.ts";
import { unlikeConditions } from "../words/conditions.ts";
import { capital } from "../words/text.ts";
import { averageVerdict, mayPrint, verdictWords } from "../words/verdicts.ts";

/** This head beside others of the shop, under their labels. */
export const otherHeadsTable: BlockBuilder = (context, place) => {
  const { last } = endStages(context);
  const pairs = context.sides.flatMap((side) => otherHeads(context, side));
  const rows = pairs.flatMap((pair): (readonly TableCell[])[] => {
    const verdict = averageVerdict(pair);
    if (verdict === undefined) return [];
    // "Higher" must be said of this head, whichever way round the pair was taken.
    const ours = pair.to.label === undefined;
    if (!ours) return [];
    const u = pair.mean_change_uncertainty_ratio;
    return [
      [
        { text: pair.from.label ?? pair.from.stage },
        { text: capital(pair.side) },
        mayPrint(verdict, u) ? { text: signedPercentDigits(pair.mean_change_ratio as number) } : NONE,
        mayPrint(verdict, u) ? { text: percentDigits(u), quiet: true } : NONE,
        inContext(verdictWords(verdict, pair), pair.like_for_like),
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
      notes: pairs.flatMap((pair) => unlikeConditions(pair) ?? []),
    },
  ]);
};

/** A verdict over unlike conditions never stands alone. */
const inContext = (words: ReturnType<typeof verdictWords>, alike: boolean) =>
  alike ? words : { ...words, text: `${words.text}, conditions differ` };
