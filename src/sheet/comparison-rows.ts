import type { Comparison } from "../figures/figures.ts";
import { sameLift } from "../units/same-lift.ts";
import type { ComparisonPoint } from "./compared.ts";
import type { TableCell, TableColumn } from "./content.ts";
import type { Context } from "./context.ts";
import { formatPercent, formatPercentDigits, formatSignedPercentDigits } from "./display.ts";
import { EMPTY_CELL } from "./flow-columns.ts";
import { averageVerdict, averageVerdictWords } from "./words/average-change.ts";
import { unclaimedWords } from "./words/lift-claims.ts";
import { whereLabel } from "./words/method.ts";
import { capitalize, joinWords } from "./words/text.ts";
import { mayPrint, verdictWords } from "./words/verdicts.ts";

/** A side of two stages, or of two heads, and where it is compared. */
export type ComparedSide = { readonly pair: Comparison; readonly points: readonly ComparisonPoint[] };

/** Whether any change may be printed: its columns stand only then. */
export const hasChanges = (sides: readonly ComparedSide[]): boolean =>
  sides.some(({ pair }) =>
    [...pair.changes, ...(pair.peak_change ? [pair.peak_change] : [])].some((change) =>
      mayPrint(change.verdict, change.uncertainty_m3_s, pair),
    ),
  );

/** Where, its lift, both flows, the change with its ±, and the verdict. */
export function comparisonColumns(
  { display }: Context,
  names: { readonly from: string; readonly to: string; readonly change: string },
  changes: boolean,
): readonly TableColumn[] {
  const unit = display.unit("flow");
  return [
    { title: "Where", align: "left", weight: 2 },
    { title: "Lift", unit: display.unit("lift"), align: "decimal" },
    { title: names.from, unit, align: "decimal" },
    { title: names.to, unit, align: "decimal" },
    ...(changes
      ? ([
          { title: names.change, unit: "%", align: "decimal" },
          { title: "±", unit: "%", align: "decimal" },
        ] as const)
      : []),
    { title: "Verdict", align: "left", weight: 2 },
  ];
}

/** A row a place, by lift; one lift under two names, as a peak at high lift, is one row where both say the same. */
export function pointRows(context: Context, side: ComparedSide, changes: boolean): readonly (readonly TableCell[])[] {
  const points = side.points
    .filter(({ change, before }) => change !== undefined && before !== undefined)
    .toSorted((a, b) => a.lift - b.lift);
  const same = (a: ComparisonPoint, b: ComparisonPoint | undefined) =>
    b !== undefined &&
    sameLift(a.lift, b.lift) &&
    a.liftBefore === undefined &&
    b.liftBefore === undefined &&
    a.verdict === b.verdict;
  return points.flatMap((point, i) => {
    if (points.slice(0, i).some((other) => same(point, other))) return [];
    const alike = points.filter((other) => other === point || same(other, point));
    return [pointRow(context, { pair: side.pair, point, alike, changes })];
  });
}

function pointRow(
  { display }: Context,
  row: {
    readonly pair: Comparison;
    readonly point: ComparisonPoint;
    readonly alike: readonly ComparisonPoint[];
    readonly changes: boolean;
  },
): readonly TableCell[] {
  const { pair, point, alike, changes } = row;
  const { change, verdict, before = 0 } = point;
  const names = joinWords(alike.flatMap(({ at }) => whereLabel(at) ?? []));
  const was = point.liftBefore === undefined ? "" : ` (there at ${display.digits("lift", point.liftBefore)})`;
  const beyond = alike.some(({ beyondCam }) => beyondCam) ? ", beyond your cam" : "";
  const u = change?.uncertainty_m3_s;
  const printed = change !== undefined && mayPrint(verdict, u, pair);
  return [
    { text: `${capitalize(pair.side)}${names === "" ? "" : `, ${names}`}${was}${beyond}` },
    { text: display.digits("lift", point.lift) },
    { text: display.digits("flow", before) },
    { text: display.digits("flow", point.flow) },
    ...(changes ? [printed ? { text: formatSignedPercentDigits(change.change_ratio) } : EMPTY_CELL] : []),
    ...(changes ? [printed && before > 0 ? { text: formatPercentDigits(u / before), quiet: true } : EMPTY_CELL] : []),
    verdictWords(verdict, pair),
  ];
}

/** The average change, with the range over which it is taken. */
export function averageRows(
  { display }: Context,
  pair: Comparison,
  changes: boolean,
): readonly (readonly TableCell[])[] {
  const words = averageVerdictWords(pair);
  if (words === undefined) return [];
  const { from_lift_m: from, to_lift_m: to, mean_change_uncertainty_ratio: u, mean_change_ratio: change = 0 } = pair;
  const { mean_from_m3_s: before } = pair;
  const range =
    from !== undefined && to !== undefined ? `, ${display.digits("lift", from)} to ${display.full("lift", to)}` : "";
  const flow = (value: number | undefined): TableCell =>
    value === undefined ? EMPTY_CELL : { text: display.digits("flow", value), strong: true };
  const printed = mayPrint(averageVerdict(pair), u, pair);
  return [
    [
      { text: `${capitalize(pair.side)}, average${range}`, strong: true },
      EMPTY_CELL,
      flow(before),
      flow(before && before * (1 + change)),
      ...(changes ? [printed ? { text: formatSignedPercentDigits(change), strong: true } : EMPTY_CELL] : []),
      ...(changes ? [printed ? { text: formatPercentDigits(u), quiet: true } : EMPTY_CELL] : []),
      { ...words, strong: true },
    ],
  ];
}

/** Notes of one side: the floor, why peaks are not compared, and changes of its rows beyond their ± that are not claimed. */
export function comparisonNotes({ pair, points }: ComparedSide): readonly string[] {
  const { floor_ratio: floor, side } = pair;
  const isPeakMissing =
    pair.peak_change === undefined &&
    pair.changes.length > 0 &&
    (pair.from.label !== undefined || points.some(({ at }) => at === "peak"));
  const shown = pair.changes.filter(({ lift_m }) =>
    points.some(({ at, lift, change }) => at !== "peak" && change && sameLift(lift, lift_m)),
  );
  const unclaimed = unclaimedWords(pair, shown);
  return [
    ...(floor === undefined
      ? []
      : [
          `${capitalize(side)}: measured again without work, it moved ${formatPercent(floor)}; no gain is claimed below that.`,
        ]),
    ...(isPeakMissing
      ? [`${capitalize(side)}: peaks are not compared; one of the two may lie beyond the lifts read.`]
      : []),
    ...(unclaimed === undefined ? [] : [unclaimed]),
  ];
}
