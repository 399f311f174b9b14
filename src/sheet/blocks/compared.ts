import type { ComparedFigures, Comparison } from "../../figures/figures.ts";
import { isClear } from "../../model/verdict.ts";
import { type ComparisonPoint, comparisonPoints } from "../compared.ts";
import { type ComparedSide, comparisonNotes, hasChanges } from "../comparison-rows.ts";
import type { TableCell, TableColumn } from "../content.ts";
import { type BlockBuilder, type Context, endStages, overallComparison } from "../context.ts";
import { formatPercentDigits, formatSignedPercentDigits } from "../display.ts";
import { EMPTY_CELL } from "../flow-columns.ts";
import { presentItems, section } from "../section.ts";
import { averageChangeWords, averageVerdict } from "../words/average-change.ts";
import { pairDifferenceWords } from "../words/conditions.ts";
import { capitalize, joinWords, lowercaseFirst } from "../words/text.ts";
import { mayPrint, verdictWords } from "../words/verdicts.ts";

/** Before and after where the sheet compares, a row a place and the sides side by side; the average closes it. */
export const comparisonTable: BlockBuilder = (context, place) => {
  const { first, last } = endStages(context);
  if (!first || !last) return [];
  const sides = context.sides.flatMap((side): ComparedSide[] => {
    const pair = overallComparison(context, side);
    const points = comparisonPoints(context, side);
    return pair && (points.some(isCompared) || averageVerdict(pair) !== undefined) ? [{ pair, points }] : [];
  });
  if (sides.length === 0) return [];
  const rows = [
    ...places(context, sides).map(({ name, at }) => [
      { text: name },
      ...sides.flatMap((side) => pointCells(context, side, at)),
    ]),
    [{ text: "average", strong: true }, ...sides.flatMap(({ pair }) => averageCells(context, pair))],
  ];
  return section(place, "What changed", [
    {
      kind: "table",
      columns: [
        { title: "At", align: "left" },
        ...sides.flatMap((side) => sideColumns(context, side, first.name, last.name)),
      ],
      groups: [
        { text: "", span: 1 },
        ...sides.map((side) => ({
          text: `${capitalize(side.pair.side)} (${context.display.unit("flow")})`,
          span: sideColumns(context, side, first.name, last.name).length,
        })),
      ],
      rows,
      rowHeads: true,
      fifths: false,
      notes: notes(context, sides, first.name),
    },
  ]);
};

const isCompared = ({ change, before }: ComparisonPoint) => change !== undefined && before !== undefined;

const sideColumns = ({ display }: Context, side: ComparedSide, from: string, to: string): readonly TableColumn[] => [
  { title: `Lift (${display.unit("lift")})`, align: "decimal" },
  { title: from, align: "decimal" },
  { title: to, align: "decimal" },
  ...(hasChanges([side]) ? ([{ title: "Change (%)", align: "decimal" }] as const) : []),
];

/** Places that a side may be compared at, by their names; lifts of the customer's own stand before the cam. */
type Place = ComparedFigures["at"];
const BEFORE: readonly Place[] = ["low", "mid", "high"];
const AFTER: readonly Place[] = ["cam", "peak"];

function places(context: Context, sides: readonly ComparedSide[]): readonly { name: string; at: Place }[] {
  const points = sides.flatMap((side) => side.points.filter(isCompared));
  const stated = points.map(({ at }) => at).filter((at) => typeof at === "number");
  const all: Place[] = [...BEFORE, ...[...new Set(stated)].toSorted((a, b) => a - b), ...AFTER];
  return all
    .filter((at) => points.some((point) => point.at === at))
    .map((at) => ({ at, name: typeof at === "number" ? context.display.full("lift", at) : placeName(at, points) }));
}

function placeName(at: string, points: readonly ComparisonPoint[]): string {
  const isBeyond = at === "peak" && points.every((point) => point.at !== "peak" || point.beyondCam);
  return at === "cam" ? "your cam" : `${at}${isBeyond ? ", beyond" : ""}`;
}

function pointCells({ display }: Context, side: ComparedSide, at: Place): readonly TableCell[] {
  const withChange = hasChanges([side]);
  const point = side.points.find((one) => one.at === at && isCompared(one));
  if (!point) return [EMPTY_CELL, EMPTY_CELL, EMPTY_CELL, ...(withChange ? [EMPTY_CELL] : [])];
  const { change, verdict, before = 0 } = point;
  const u = change?.uncertainty_m3_s;
  const strong = at === "cam" ? { strong: true } : {};
  const printed = change !== undefined && before > 0 && mayPrint(verdict, u, side.pair);
  const claim = printed ? changeCell(change.change_ratio, u / before, verdictWords(verdict, side.pair)) : EMPTY_CELL;
  return [
    { text: display.digits("lift", point.lift) },
    { text: display.digits("flow", before), quiet: true },
    { text: display.digits("flow", point.flow), strong: true },
    ...(withChange ? [{ ...claim, ...(claim === EMPTY_CELL ? {} : strong) }] : []),
  ];
}

function averageCells({ display }: Context, pair: Comparison): readonly TableCell[] {
  const {
    to_lift_m: to,
    mean_change_uncertainty_ratio: u,
    mean_change_ratio: change = 0,
    mean_from_m3_s: before,
  } = pair;
  const verdict = averageVerdict(pair);
  const withChange = hasChanges([{ pair, points: [] }]);
  if (verdict === undefined || before === undefined)
    return [EMPTY_CELL, EMPTY_CELL, EMPTY_CELL, ...(withChange ? [EMPTY_CELL] : [])];
  const claim = mayPrint(verdict, u, pair) ? changeCell(change, u, verdictWords(verdict, pair)) : EMPTY_CELL;
  return [
    to === undefined ? EMPTY_CELL : { text: `to\u00a0${display.digits("lift", to)}` },
    { text: display.digits("flow", before), quiet: true },
    { text: display.digits("flow", before * (1 + change)), strong: true },
    ...(withChange ? [claim === EMPTY_CELL ? claim : { ...claim, strong: true }] : []),
  ];
}

/** A change with the mark of its verdict, whose words go to screen readers, and its ±. */
const changeCell = (ratio: number, u: number, { mark, text }: ReturnType<typeof verdictWords>): TableCell => ({
  text: formatSignedPercentDigits(ratio),
  mark,
  markLabel: text,
  plusMinus: `±\u00a0${formatPercentDigits(u)}`,
});

function notes(context: Context, sides: readonly ComparedSide[], firstStage: string): readonly string[] {
  const { display } = context;
  const camLifts = sides.some(({ points }) => points.some(({ at, interpolated }) => at === "cam" && interpolated));
  const ranges = sides.flatMap(({ pair: { side, from_lift_m: from } }) =>
    from === undefined ? [] : [{ side, text: display.full("lift", from) }],
  );
  const alike = new Set(ranges.map(({ text }) => text)).size === 1;
  const from = alike ? ranges[0]!.text : joinWords(ranges.map(({ side, text }) => `${text} (${side})`));
  return [
    presentItems<string>([
      hasChanges(sides) && "± belongs to the change. Its mark says clear gain, clear loss or within repeatability.",
      camLifts && "At your cam: between readings.",
      ranges.length > 0 && `Average: from ${from}.`,
      ...sides.flatMap((side) => peakWords(context, side, firstStage)),
    ]).join(" "),
    ...sides.flatMap((side) => [
      ...unclearWords(side.pair),
      ...comparisonNotes(side),
      ...presentItems<string>([pairDifferenceWords(side.pair)]),
    ]),
  ].filter((note) => note !== "");
}

/** A peak that stood at another lift before. */
const peakWords = ({ display }: Context, { pair, points }: ComparedSide, stage: string): readonly string[] =>
  points.flatMap(({ liftBefore }) =>
    liftBefore === undefined
      ? []
      : [`${capitalize(pair.side)}, ${lowercaseFirst(stage)}: peak at ${display.full("lift", liftBefore)}.`],
  );

/** An average that is no clear change: how large it may be, or why nothing is claimed. */
function unclearWords(pair: Comparison): readonly string[] {
  const verdict = averageVerdict(pair);
  return verdict !== undefined && isClear(verdict) ? [] : presentItems<string>([averageChangeWords(pair)]);
}
