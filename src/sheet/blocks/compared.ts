import type { Side } from "../../model/model.ts";
import { comparisonPoints } from "../compared.ts";
import type { TableCell } from "../content.ts";
import { type BlockBuilder, type Context, endStages, overallComparison } from "../context.ts";
import { formatPercent, formatPercentDigits, formatSignedPercentDigits } from "../display.ts";
import { EMPTY_CELL } from "../flow-columns.ts";
import { isSameLift } from "../same-lift.ts";
import { section } from "../section.ts";
import { pairDifferenceWords } from "../words/conditions.ts";
import { whereLabel } from "../words/method.ts";
import { capitalize, joinWords } from "../words/text.ts";
import { averageVerdict, mayPrint, verdictWords } from "../words/verdicts.ts";

/** Before and after where the sheet compares, with ± and verdict in words; then the average. */
export const comparisonTable: BlockBuilder = (context, place) => {
  const { display } = context;
  const { first, last } = endStages(context);
  if (!first || !last) return [];
  // Columns of changes stand only where one may be printed.
  const said = context.sides.some((side) => {
    const pair = overallComparison(context, side);
    return pair?.changes.some((change) => mayPrint(change.verdict, change.uncertainty_m3_s));
  });
  const rows = context.sides.flatMap((side) => [
    ...pointRows(context, side, said),
    ...averageRows(context, side, said),
  ]);
  if (rows.length === 0) return [];
  const unit = display.unit("flow");
  return section(place, "What changed", [
    {
      kind: "table",
      columns: [
        { title: "Where", align: "left", weight: 2 },
        { title: "Lift", unit: display.unit("lift"), align: "decimal" },
        { title: first.name, unit, align: "decimal" },
        { title: last.name, unit, align: "decimal" },
        ...(said
          ? ([
              { title: "Change", unit: "%", align: "decimal" },
              { title: "±", unit: "%", align: "decimal" },
            ] as const)
          : []),
        { title: "Verdict", align: "left", weight: 2 },
      ],
      rows,
      rowHeads: true,
      fifths: false,
      notes: context.sides.flatMap((side) => {
        const pair = overallComparison(context, side);
        return pair
          ? [
              ...repeatNote(pair.floor_ratio, side),
              ...(pairDifferenceWords(pair) ? [pairDifferenceWords(pair) as string] : []),
            ]
          : [];
      }),
    },
  ]);
};

function pointRows(context: Context, side: Side, said: boolean): readonly (readonly TableCell[])[] {
  const { display } = context;
  const places = comparisonPoints(context, side).toSorted((a, b) => a.lift - b.lift);
  return places.flatMap((here, i) => {
    const { lift, after, before, change, verdict } = here;
    // One lift under two names, as a peak at high lift, is one row.
    if (!change || !verdict || before === undefined || isSameLift(lift, places[i - 1]?.lift ?? Number.NaN)) return [];
    const names = places.filter((other) => isSameLift(other.lift, lift)).flatMap(({ at }) => whereLabel(at) ?? []);
    const beyond = places.some((other) => isSameLift(other.lift, lift) && other.beyondCam) ? ", beyond your cam" : "";
    const base = after.flow_m3_s - change.change_m3_s;
    const u = change.uncertainty_m3_s;
    return [
      [
        { text: `${capitalize(side)}${names.length > 0 ? `, ${joinWords(names)}` : ""}${beyond}` },
        { text: display.digits("lift", lift) },
        { text: display.digits("flow", before) },
        { text: display.digits("flow", after.flow_m3_s) },
        ...(said ? [mayPrint(verdict, u) ? { text: formatSignedPercentDigits(change.change_ratio) } : EMPTY_CELL] : []),
        ...(said
          ? [mayPrint(verdict, u) && base > 0 ? { text: formatPercentDigits(u / base), quiet: true } : EMPTY_CELL]
          : []),
        verdictWords(verdict, overallComparison(context, side)),
      ],
    ];
  });
}

function averageRows(context: Context, side: Side, said: boolean): readonly (readonly TableCell[])[] {
  const { display } = context;
  const pair = overallComparison(context, side);
  const verdict = pair && averageVerdict(pair);
  if (!pair || verdict === undefined) return [];
  const { from_lift_m: from, to_lift_m: to, mean_change_uncertainty_ratio: u } = pair;
  const range =
    from !== undefined && to !== undefined ? `, ${display.digits("lift", from)} to ${display.full("lift", to)}` : "";
  const { first, last } = endStages(context);
  const mean = (stage: typeof first) => stage?.figures[side]?.mean_flow?.flow_m3_s;
  const flow = (value: number | undefined): TableCell =>
    value === undefined ? EMPTY_CELL : { text: display.digits("flow", value), strong: true };
  return [
    [
      { text: `${capitalize(side)}, average${range}`, strong: true },
      EMPTY_CELL,
      flow(mean(first)),
      flow(mean(last)),
      ...(said
        ? [
            mayPrint(verdict, u)
              ? { text: formatSignedPercentDigits(pair.mean_change_ratio as number), strong: true }
              : EMPTY_CELL,
          ]
        : []),
      ...(said ? [mayPrint(verdict, u) ? { text: formatPercentDigits(u), quiet: true } : EMPTY_CELL] : []),
      { ...verdictWords(verdict, pair), strong: true },
    ],
  ];
}

const repeatNote = (floor: number | undefined, side: Side): readonly string[] =>
  floor === undefined
    ? []
    : [
        `${capitalize(side)}: measured again without work, it moved ${formatPercent(floor)}; no gain is claimed below that.`,
      ];
