import type { Chart, LineChart } from "../sheet/content.ts";
import type { Measure } from "../text/measure.ts";
import type { ChartEnv } from "./chart-env.ts";
import { held, onAxis } from "./check-axis.ts";
import { type Fitted, fitText } from "./fit-text.ts";
import { widthIn } from "./type.ts";

/** A word for a line, a band or a limit, and the place in the panel, in its axes' units, that it belongs to. */
export type LineEnd = { readonly text: string; readonly x: number; readonly y: number; readonly look: LineLook };
export type LineLook =
  | { readonly kind: "series"; readonly color: string; readonly label: string }
  | { readonly kind: "quiet" };

/** Everything that is named at its right end, or where it asks to be: series, bands, lines across. In the order given. */
export function lineEnds({ series, bands = [], marks = [], x, y }: LineChart): readonly LineEnd[] {
  const named = series.flatMap(({ label, labelAt = x.end, curve, points, style }): LineEnd[] => {
    const onPanel = ([px, py]: readonly [number, number]) => px <= labelAt && onAxis(x, px) && onAxis(y, py);
    const end = curve.findLast(onPanel) ?? points.map((point) => [point.x, point.y] as const).findLast(onPanel);
    return label.trim() !== "" && end
      ? [{ text: label, x: end[0], y: end[1], look: { kind: "series", color: style.color, label: style.label } }]
      : [];
  });
  const ranges = bands.flatMap(({ label = "", points }): LineEnd[] => {
    const end = points.findLast((point) => onAxis(x, point.x));
    return label.trim() !== "" && end
      ? [{ text: label, x: end.x, y: (held(y, end.low) + held(y, end.high)) / 2, look: { kind: "quiet" } }]
      : [];
  });
  const limits = marks.flatMap(({ axis, at, label }): LineEnd[] =>
    axis === "y" && label.trim() !== "" && onAxis(y, at)
      ? [{ text: label, x: x.end, y: at, look: { kind: "quiet" } }]
      : [],
  );
  return [...named, ...ranges, ...limits];
}

/** A label's colour on paper. */
export const endColor = ({ look }: LineEnd, { colors }: ChartEnv) =>
  look.kind === "series" ? look.label : colors.quiet;

/** From the panel's right side to the labels [pt]; readings and leaders need it. */
export const END_GAP = 9;
/** The most that line-end labels may take: a share of a chart's width, and a width outright [pt]. */
const MOST_SHARE = 0.27;
const MOST = 100;
/** In a narrow chart a short label may take more, if that saves it from being broken or cut. */
const SHORT_SHARE = 0.36;
const SHORT = 41;

/** A line-end label set on at most two lines, in a chart of this width. */
export function fitEnd(text: string, chartWidth: number, measure: Measure): Fitted {
  const within = (room: number) => fitText(text, room - END_GAP, 2, widthIn(measure));
  const most = Math.min(chartWidth * MOST_SHARE, MOST);
  const usual = within(most);
  const short = Math.min(chartWidth * SHORT_SHARE, SHORT);
  if (short <= most || (usual.lines.length === 1 && !usual.cut)) return usual;
  const wider = within(short);
  return !wider.cut && (usual.cut || wider.lines.length === 1) ? wider : usual;
}

/** Room that a chart of this width keeps right of its panel for line-end labels [pt]; panels side by side share the most. */
export function labelRoomOf(chart: Chart, measure: Measure, chartWidth: number): number {
  if (chart.kind === "bar") return 0;
  const widths = lineEnds(chart).map(({ text }) => fitEnd(text, chartWidth, measure).width);
  return widths.length === 0 ? 0 : END_GAP + Math.max(...widths);
}
