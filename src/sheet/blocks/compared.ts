import { comparisonPoints } from "../compared.ts";
import { averageRows, comparisonColumns, comparisonNotes, hasChanges, pointRows } from "../comparison-rows.ts";
import { type BlockBuilder, endStages, overallComparison } from "../context.ts";
import { presentItems, section } from "../section.ts";
import { pairDifferenceWords } from "../words/conditions.ts";

/** Before and after where the sheet compares, with ± and verdict in words; then the average. */
export const comparisonTable: BlockBuilder = (context, place) => {
  const { first, last } = endStages(context);
  if (!first || !last) return [];
  const sides = context.sides.flatMap((side) => {
    const pair = overallComparison(context, side);
    return pair ? [{ pair, points: comparisonPoints(context, side) }] : [];
  });
  const changes = hasChanges(sides);
  const rows = sides.flatMap((side) => [
    ...pointRows(context, side, changes),
    ...averageRows(context, side.pair, changes),
  ]);
  if (rows.length === 0) return [];
  return section(place, "What changed", [
    {
      kind: "table",
      columns: comparisonColumns(context, { from: first.name, to: last.name, change: "Change" }, changes),
      rows,
      rowHeads: true,
      fifths: false,
      notes: sides.flatMap((side) => [
        ...comparisonNotes(side),
        ...presentItems<string>([pairDifferenceWords(side.pair)]),
      ]),
    },
  ]);
};
