import type { SetSideFigures, SideFigures } from "../figures/figures.ts";
import type { Side } from "../model/model.ts";
import type { SeriesStyle } from "../theme/theme.ts";
import type { Axis, Series } from "./content.ts";
import { type Context, endStages, flowedFigures } from "./context.ts";
import { niceAxis } from "./nice-axis.ts";

/** Every flow curve of one side: the job's stages, the latest stage's other sets, other heads. */
export function flowCurves(context: Context, side: Side): readonly Series[] {
  const { last } = endStages(context);
  const stages = context.stages.flatMap((stage) => {
    const figures = flowedFigures(stage, side);
    return figures ? [flowSeries(context, figures, stage.name, stage.style, stage === last)] : [];
  });
  const sets = (last?.figures.sets ?? []).map((set) => ({ name: set.name, figures: set[side] }));
  const heads = (context.figures.others ?? []).map((other) => ({ name: other.label, figures: other[side] }));
  const others = [...sets, ...heads].flatMap(({ name, figures }, i) =>
    figures && figures.readings.length > 0 ? [flowSeries(context, figures, name, otherStyle(context, i), false)] : [],
  );
  // The latest is drawn over the others.
  return [
    ...stages.filter((series) => series.name !== last?.name),
    ...others,
    ...stages.filter((series) => series.name === last?.name),
  ];
}

/** Line style of the latest stage's further sets, then of other heads: by place among them all, whatever was flowed. */
export const otherStyle = ({ theme: { series } }: Context, index: number): SeriesStyle =>
  series.others[index % series.others.length]!;

export function flowSeries(
  { display }: Context,
  figures: SideFigures | SetSideFigures,
  name: string,
  style: SeriesStyle,
  bars: boolean,
): Series {
  return {
    name,
    label: name,
    style,
    curve: figures.curve.map(([lift, flow]) => [display.number("lift", lift), display.number("flow", flow)] as const),
    points: figures.readings
      .filter(({ partial }) => !partial)
      .map((reading) => ({
        x: display.number("lift", reading.lift_m),
        y: display.number("flow", reading.flow_m3_s),
        kind: reading.doubtful ? "doubtful" : reading.noisy ? "noisy" : "good",
        ...(bars && reading.uncertainty_m3_s !== undefined
          ? { plusMinus: display.number("flow", reading.uncertainty_m3_s) }
          : {}),
      })),
  };
}

/** Axes that both sides share, from zero, so that two panels may be compared by eye. */
export function sharedAxes(
  panels: readonly (readonly Series[])[],
  titles: { x: string; y: string },
  reach: { x?: number; y?: number } = {},
): { x: Axis; y: Axis } {
  const points = panels
    .flat()
    .flatMap((series) => [
      ...series.points.map((point) => [point.x, point.y + (point.plusMinus ?? 0)] as const),
      ...series.curve,
    ]);
  const highest = (values: readonly number[], least = 0) =>
    values.reduce((high, value) => Math.max(high, value), least) || 1;
  return {
    x: {
      title: titles.x,
      ...niceAxis(
        0,
        highest(
          points.map(([x]) => x),
          reach.x,
        ),
        6,
      ),
    },
    y: {
      title: titles.y,
      ...niceAxis(
        0,
        highest(
          points.map(([, y]) => y),
          reach.y,
        ),
        6,
      ),
    },
  };
}
