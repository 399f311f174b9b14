import type { Comparison } from "../../figures/figures.ts";
import { otherHeadPoints } from "../compared.ts";
import {
  averageRows,
  type ComparedSide,
  comparisonColumns,
  comparisonNotes,
  hasChanges,
  pointRows,
} from "../comparison-rows.ts";
import type { Part } from "../content.ts";
import { type BlockBuilder, type Context, endStages, otherHeadComparisons } from "../context.ts";
import { presentItems, section } from "../section.ts";
import { pairDifferenceWords } from "../words/conditions.ts";
import { comparedCylindersWords } from "../words/identity.ts";
import { crossingWords } from "../words/lift-claims.ts";

/** This head beside others of the shop, under their labels: lift by lift, then on average, and where they cross. */
export const otherHeadsTable: BlockBuilder = (context, place) => {
  // A verdict is on the later head of a pair: where that is another head, it is not about this one.
  const pairs = context.sides
    .flatMap((side) => otherHeadComparisons(context, side))
    .filter(({ to, from }) => to.label === undefined && from.label !== undefined);
  const labels = [...new Set(pairs.map(({ from }) => from.label as string))];
  const tables = labels.flatMap((label) => {
    const own = pairs.filter(({ from }) => from.label === label);
    return headTable(context, label, own);
  });
  return section(place, "Beside other heads", tables);
};

function headTable(context: Context, label: string, pairs: readonly Comparison[]): readonly Part[] {
  const { last } = endStages(context);
  const sides = pairs.map((pair): ComparedSide => ({ pair, points: otherHeadPoints(context, pair) }));
  const changes = hasChanges(sides);
  const rows = sides.flatMap((side) => [
    ...pointRows(context, side, changes),
    ...averageRows(context, side.pair, changes),
  ]);
  if (rows.length === 0 || !last) return [];
  return [
    {
      kind: "table",
      title: `${last.name}, against ${label}`,
      columns: comparisonColumns(context, { from: "That head", to: "This head", change: "Difference" }, changes),
      rows,
      rowHeads: true,
      fifths: false,
      notes: [
        ...new Set(
          sides.flatMap((side) => [
            ...presentItems<string>([crossingWords(side.pair, context.display), comparedCylindersWords(side.pair)]),
            ...comparisonNotes(side),
            ...presentItems<string>([pairDifferenceWords(side.pair)]),
          ]),
        ),
      ],
    },
  ];
}
