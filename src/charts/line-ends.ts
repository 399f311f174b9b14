import type { Chart, LineChart } from "../sheet/content.ts";
import type { Measure } from "../text/measure.ts";
import { clampToAxis, isOnAxis } from "./axis.ts";
import type { ChartEnv } from "./chart-env.ts";
import { type FittedText, fitText, textWidth } from "./chart-text.ts";
/** Label of a series, band or limit, and its anchor in the axes' units. */
export type LineEnd = { readonly text: string; readonly x: number; readonly y: number; readonly look: LineLook };
type LineLook =
  | { readonly kind: "series"; readonly color: string; readonly label: string }
  | { readonly kind: "quiet" };

/** Labels at the right ends, or at `labelAt`, of series, bands and limits, in the order given. */
export function lineEnds({ series, bands = [], marks = [], x, y }: LineChart): readonly LineEnd[] {
  const named = series.flatMap(({ label, labelAt = x.end, curve, points, style }): LineEnd[] => {
    const onPanel = ([px, py]: readonly [number, number]) => px <= labelAt && isOnAxis(x, px) && isOnAxis(y, py);
    const end = curve.findLast(onPanel) ?? points.map((point) => [point.x, point.y] as const).findLast(onPanel);
    return label.trim() !== "" && end
      ? [{ text: label, x: end[0], y: end[1], look: { kind: "series", color: style.color, label: style.label } }]
      : [];
  });
  const ranges = bands.flatMap(({ label = "", points }): LineEnd[] => {
    const end = points.findLast((point) => isOnAxis(x, point.x));
    return label.trim() !== "" && end
      ? [
          {
            text: label,
            x: end.x,
            y: (clampToAxis(y, end.low) + clampToAxis(y, end.high)) / 2,
            look: { kind: "quiet" },
          },
        ]
      : [];
  });
  const limits = marks.flatMap(({ axis, at, label }): LineEnd[] =>
    axis === "y" && label.trim() !== "" && isOnAxis(y, at)
      ? [{ text: label, x: x.end, y: at, look: { kind: "quiet" } }]
      : [],
  );
  return [...named, ...ranges, ...limits];
}

/** Colour of a label's text. */
export const endLabelColor = ({ look }: LineEnd, { colors }: ChartEnv) =>
  look.kind === "series" ? look.label : colors.quiet;

/** Gap between the panel and the labels [pt], for markers and leaders. */
export const END_GAP = 9;
/** Limits of the labels' width: a share of the chart's width, and a width [pt]. */
const MOST_SHARE = 0.27;
const MOST = 100;
/** In a narrow chart a short label may take more, to avoid a break or a cut. */
const SHORT_SHARE = 0.36;
const SHORT = 41;

/** Fits a line-end label on at most two lines. */
export function fitEndLabel(text: string, chartWidth: number, measure: Measure): FittedText {
  const within = (room: number) => fitText(text, room - END_GAP, 2, textWidth(measure));
  const most = Math.min(chartWidth * MOST_SHARE, MOST);
  const usual = within(most);
  const short = Math.min(chartWidth * SHORT_SHARE, SHORT);
  if (short <= most || (usual.lines.length === 1 && !usual.cut)) return usual;
  const wider = within(short);
  return !wider.cut && (usual.cut || wider.lines.length === 1) ? wider : usual;
}

/** Room right of a panel for its line-end labels [pt]; panels side by side use the largest. */
export function endLabelRoom(chart: Chart, measure: Measure, chartWidth: number): number {
  if (chart.kind !== "line") return 0;
  const widths = lineEnds(chart).map(({ text }) => fitEndLabel(text, chartWidth, measure).width);
  return widths.length === 0 ? 0 : END_GAP + Math.max(...widths);
}
