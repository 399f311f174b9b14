import type { ChangeFigures, Comparison } from "../figures/figures.ts";
import type { Side } from "../model/model.ts";
import { isClear } from "../model/verdict.ts";
import type { ComparisonPoint } from "./compared.ts";
import type { Axis, DotStrip, FlowPanel, Reach, Series } from "./content.ts";
import { type Context, camLift, endStages, flowedFigures, overallComparison } from "./context.ts";
import { flowCurves } from "./flow-curves.ts";
import { findAtLift } from "./lifts.ts";
import { evenAxis, liftAxis, panelAxis, stripAxis } from "./panel-axis.ts";
import { averageVerdict } from "./words/average-change.ts";
import { isWithinEverywhere } from "./words/lead.ts";
import { lowercaseFirst } from "./words/text.ts";
import { claimableVerdict, mayPrint } from "./words/verdicts.ts";

/** Heights between which a panel's plot grows, and of a strip's plot [pt]. */
export const PLOT = { least: 112, most: 160, phone: 84, phoneMost: 220, strip: 76, stripMost: 90 } as const;
/** Error bars shorter than this, up and down together, hide behind the marks [pt]. */
const SEEN = 7.2;
const SEEN_PAST_RING = 12;
/** More earlier stages than this are too many lines: the first and the last of them stand for all. */
const MOST_EARLIER = 2;

/** Curves of one side as a panel shows them, and what it says of its change. */
export type PanelCurves = {
  readonly side: Side;
  readonly series: readonly Series[];
  readonly pair?: Comparison;
  /** The two curves are one within their ±. */
  readonly alike: boolean;
  /** Names of stages that are not drawn. */
  readonly leftOut: readonly string[];
};

/** The curves of each side that was flowed. */
export function panelCurves(context: Context): readonly PanelCurves[] {
  return context.sides.flatMap((side): PanelCurves[] => {
    const all = flowCurves(context, side);
    if (all.length === 0) return [];
    const hidden = hiddenStages(context);
    const series = all.filter(({ name }) => !hidden.includes(name));
    const pair = overallComparison(context, side);
    const alike = pair !== undefined && series.length === 2 && isWithinEverywhere(pair);
    const known = {
      side,
      alike,
      leftOut: hidden.filter((name) => all.some((one) => one.name === name)),
      ...(pair ? { pair } : {}),
    };
    return [{ ...known, series: alike ? oneCurve(series) : series }];
  });
}

/** Stages whose curve would only lie on another: those that measure one again, and those between the first and the last earlier ones. */
function hiddenStages({ stages }: Context): readonly string[] {
  const earlier = stages.filter(({ latest, repeat }) => !latest && !repeat);
  const between = earlier.length > MOST_EARLIER ? earlier.slice(1, -1) : [];
  return [...stages.filter(({ latest, repeat }) => repeat && !latest), ...between].map(({ name }) => name);
}

/** Two curves within ± of one another: the first as rings round the dots of the latest, one name for both. */
function oneCurve(series: readonly Series[]): readonly Series[] {
  const [first, last] = series as [Series, Series];
  return [
    { ...first, label: "", curve: [], ring: true },
    { ...last, label: `${first.name} and ${lowercaseFirst(last.name)}, within ±` },
  ];
}

/** Whether no side changed by more than its ±: each is one curve. */
export const isOneCurve = (curves: readonly PanelCurves[]): boolean => curves.every(({ alike }) => alike);

/** Axes that all panels share; `width` is that of one plot [pt]. */
export function panelAxes(
  context: Context,
  curves: readonly PanelCurves[],
  width: number,
  plot: number = PLOT.least,
): { x: Axis; y: Axis } {
  const { display } = context;
  const points = curves.flatMap(({ series }) =>
    series.flatMap((one) => [...one.points.map(({ x, y }) => [x, y] as const), ...one.curve]),
  );
  const highest = (values: readonly number[]) => values.reduce((high, value) => Math.max(high, value), 0);
  return {
    x: { title: `lift, ${display.unit("lift")}`, ...liftAxis(highest(points.map(([x]) => x)), width) },
    y: { title: display.unit("flow"), ...panelAxis(highest(points.map(([, y]) => y)), plot) },
  };
}

/** Whether ± are large enough to be seen in a plot of some height; undefined where none is known. */
export function showsErrorBars(curves: readonly PanelCurves[], { end }: Axis, plot: number): boolean | undefined {
  const all = curves.flatMap(({ series }) =>
    series.flatMap(({ points }) => points.flatMap(({ plusMinus }) => plusMinus ?? [])),
  );
  if (all.length === 0) return undefined;
  const ringed = curves.some(({ alike }) => alike);
  return ((2 * Math.max(...all)) / end) * plot > (ringed ? SEEN_PAST_RING : SEEN);
}

/** One side's panel: its curves, the ground of a clear average gain, the bar of a clear change at the cam. */
export function flowPanel(
  context: Context,
  { side, series, pair, alike }: PanelCurves,
  axes: { readonly x: Axis; readonly y: Axis },
  { bars, point }: { readonly bars: boolean; readonly point?: ComparisonPoint | undefined },
): FlowPanel {
  const { display } = context;
  const lift = camLift(context, side);
  const at = lift === undefined ? undefined : display.number("lift", lift);
  const onPanel = at !== undefined && at < axes.x.end;
  const clear =
    point?.at === "cam" && point.before !== undefined && point.verdict !== undefined && isClear(point.verdict);
  const bar = clear
    ? {
        bar: {
          from: display.number("flow", point.before as number),
          to: display.number("flow", point.flow),
        },
      }
    : {};
  const gain = pair && !alike ? gainGround(context, side, pair) : [];
  return {
    kind: "flow-panel",
    ...axes,
    series: bars
      ? series
      : series.map((one) => ({ ...one, points: one.points.map(({ plusMinus: _, ...rest }) => rest) })),
    ...(gain.length > 0 ? { gain } : {}),
    ...(onPanel ? { cam: { at, ...bar } } : {}),
  };
}

/** Between first and latest curve, over the lifts of the average; nothing where its verdict is not clear. */
function gainGround(context: Context, side: Side, pair: Comparison): readonly Reach[] {
  const verdict = averageVerdict(pair);
  if (verdict === undefined || !isClear(verdict) || pair.from_lift_m === undefined || pair.to_lift_m === undefined)
    return [];
  const { first, last } = endStages(context);
  const [before, after] = [flowedFigures(first, side)?.curve, flowedFigures(last, side)?.curve];
  if (!before || !after) return [];
  const [from, to] = [pair.from_lift_m, pair.to_lift_m];
  const lifts = [from, ...[...before, ...after].map(([lift]) => lift).filter((lift) => lift > from && lift < to), to];
  const { display } = context;
  return lifts
    .toSorted((a, b) => a - b)
    .flatMap((lift): Reach[] => {
      const [one, other] = [flowAt(before, lift), flowAt(after, lift)];
      if (one === undefined || other === undefined) return [];
      const [low, high] = [display.number("flow", Math.min(one, other)), display.number("flow", Math.max(one, other))];
      return [{ x: display.number("lift", lift), low, high }];
    });
}

/** A drawn curve at a lift, straight between its points. */
export function flowAt(curve: readonly (readonly [number, number])[], lift: number): number | undefined {
  const next = curve.findIndex(([at]) => at >= lift - 1e-12);
  const [b, a] = [curve[next], curve[next - 1]];
  if (!b) return undefined;
  if (!a || b[0] === a[0]) return b[0] - lift < 1e-9 ? b[1] : undefined;
  return a[1] + ((lift - a[0]) / (b[0] - a[0])) * (b[1] - a[1]);
}

/** One lift of a strip, in percent. */
type StripPoint = { readonly x: number; readonly change?: ChangeFigures; readonly y: number; readonly zone: number };

/** Change at each lift of the sides given; `even`: as far up as down, for changes within their ±. */
export function changeStrips(
  context: Context,
  curves: readonly PanelCurves[],
  x: Axis,
  even: boolean,
): readonly (DotStrip | undefined)[] {
  const { display, theme } = context;
  const points = curves.map((one) => stripPoints(context, one));
  const reach = points.flat().flatMap(({ y, zone }) => [y, zone, -zone]);
  if (reach.length === 0) return curves.map(() => undefined);
  const [low, high] = [Math.min(0, ...reach), Math.max(0, ...reach)];
  const y: Axis = { title: "%", ...(even ? evenAxis(Math.max(-low, high)) : stripAxis(low, high, PLOT.strip)) };
  return curves.map(({ side, pair }, i): DotStrip | undefined => {
    const own = points[i]!;
    if (!pair || own.length === 0) return undefined;
    const lift = camLift(context, side);
    const at = lift === undefined ? undefined : display.number("lift", lift);
    const gaps = comparedNowhere(context, side, pair).map((one) => display.number("lift", one));
    return {
      kind: "dot-strip",
      x,
      y,
      color: theme.series.latest.color,
      stems: true,
      zone: own.map(({ x, zone }) => ({ x, low: -zone, high: zone })),
      dots: own.map(({ x, y, change }) => ({
        x,
        y,
        hollow: change === undefined || !isFilled(change),
      })),
      ...(gaps.length > 0 ? { gaps } : {}),
      ...(at !== undefined && at < x.end ? { cam: { at } } : {}),
    };
  });
}

/** Whether the ± of a side's strip are those of each lift alone: where its average changed clearly. Else they hold for all lifts together. */
export const hasOwnZone = (pair: Comparison): boolean => isClear(averageVerdict(pair) ?? "too few repeats");

function stripPoints(context: Context, { pair }: PanelCurves): readonly StripPoint[] {
  if (!pair) return [];
  const { display } = context;
  return pair.changes.flatMap((change): StripPoint[] => {
    const { change_ratio: ratio, uncertainty_m3_s: own } = change;
    if (change.interpolated || own === undefined || change.verdict === undefined || !mayPrint(change.verdict, own))
      return [];
    const plusMinus = zoneHalf(pair, change, own);
    const x = display.number("lift", change.lift_m);
    return [{ x, change, y: 100 * ratio, zone: (100 * plusMinus) / change.from_m3_s }];
  });
}

/** Whether the strip draws a change as a filled dot: only if it is clear. */
const isFilled = (change: ChangeFigures) => isClear(claimableVerdict(change.verdict, change.uncertainty_m3_s));

/**
 * Half of the zone of a dot [m³/s]: the ± of its side, unless that contradicts the verdict. A lift that is clear with its neighbour is
 * beyond its own ±, one that stands alone and is not claimed is within the ± of all lifts together.
 */
function zoneHalf(pair: Comparison, change: ChangeFigures, own: number): number {
  const { joint_uncertainty_m3_s: joint = own, change_m3_s: by } = change;
  const ofSide = hasOwnZone(pair) ? own : joint;
  const isWithin = Math.abs(by) <= ofSide;
  if (isFilled(change) !== isWithin) return ofSide;
  return isWithin ? own : joint;
}

/** Whether some lift of a side has another zone than its side. */
export const hasMixedZone = (pair: Comparison): boolean =>
  pair.changes.some((change) => {
    const { interpolated, uncertainty_m3_s: own, joint_uncertainty_m3_s: joint = own } = change;
    return !interpolated && own !== undefined && zoneHalf(pair, change, own) !== (hasOwnZone(pair) ? own : joint);
  });

/** Lifts read in both stages where nothing is compared, such as a doubtful reading. */
function comparedNowhere(context: Context, side: Side, pair: Comparison): readonly number[] {
  const { first, last } = endStages(context);
  const [before, after] = [flowedFigures(first, side), flowedFigures(last, side)];
  if (!before || !after) return [];
  return after.readings
    .filter(({ lift_m }) => findAtLift(before.readings, lift_m) && !findAtLift(pair.changes, lift_m))
    .map(({ lift_m }) => lift_m);
}
