import type { Comparison } from "../../figures/figures.ts";
import { type ComparisonPoint, leadingPoint } from "../compared.ts";
import type { DotStrip, FlowPanelCell, FlowPanels } from "../content.ts";
import { type BlockBuilder, type Context, endStages } from "../context.ts";
import { formatPercentDigits, formatSignedPercentDigits } from "../display.ts";
import {
  changeStrips,
  flowPanel,
  isOneCurve,
  type PanelCurves,
  PLOT,
  panelAxes,
  panelCurves,
  showsErrorBars,
} from "../flow-panel.ts";
import { section } from "../section.ts";
import { averageChangeWords } from "../words/average-change.ts";
import { panelAlt, stripAlt } from "../words/chart-alt.ts";
import { headlineDecimals, headlineNumber } from "../words/headline-number.ts";
import { loneVerdictWords } from "../words/lift-claims.ts";
import { whereWords } from "../words/method.ts";
import { panelCaption } from "../words/panel-caption.ts";
import { capitalize } from "../words/text.ts";
import { mayPrint } from "../words/verdicts.ts";

/** Height of the lift labels under a plot [pt]. */
export const LABELS = 13;
/** Width of a plot in half of the page, and over all of it [pt]. */
export const [HALF_PLOT, WHOLE_PLOT] = [239.6, 493.2];
/** Plots under their own strips grow less [pt]. */
const WITH_STRIP = { least: 104, most: 124, strip: 80 } as const;

/** Each side's big number with its verdict, on the panel that proves it; the change strips too where nothing changed. */
export const flowPanels: BlockBuilder = (context, place) => {
  const curves = panelCurves(context);
  if (curves.length === 0) return [];
  const axes = panelAxes(context, curves, curves.length > 1 ? HALF_PLOT : WHOLE_PLOT);
  const alike = isOneCurve(curves);
  const strips = alike ? changeStrips(context, curves, axes.x, true) : [];
  const plot = strips.length > 0 ? WITH_STRIP : PLOT;
  const bars = showsErrorBars(curves, axes.y, plot.most);
  const points = curves.map(({ side }) => leadingPoint(context, side));
  const decimals = headlineDecimals(context, points);
  const panels = curves.map((one, i): FlowPanelCell => {
    const point = points[i];
    const chart = flowPanel(context, one, axes, { bars: bars === true, point });
    const message = one.pair && averageChangeWords(one.pair);
    return {
      ...numberWords(context, one, point, decimals),
      chart,
      alt: panelAlt(`${one.side} flow against valve lift`, chart, message),
      ...stripUnder(context, one, strips[i]),
    };
  });
  const part: FlowPanels = {
    kind: "flow-panels",
    panels,
    height: place.cell.height ?? plot.least + LABELS,
    ...(place.cell.height === undefined ? { grow: [plot.least + LABELS, plot.most + LABELS] } : {}),
    ...(strips.length > 0 ? { stripHeight: WITH_STRIP.strip + LABELS } : {}),
    caption: panelCaption(context, panels, curves, { bars, points, strips: strips.flatMap((strip) => strip ?? []) }),
  };
  return section(place, undefined, [part]);
};

type NumberWords = Pick<FlowPanelCell, "heading" | "number" | "verdict" | "was">;

function numberWords(
  context: Context,
  { side, pair, alike }: PanelCurves,
  point: ComparisonPoint | undefined,
  decimals: number,
): NumberWords {
  const { display } = context;
  if (!point) return { heading: capitalize(side) };
  const heading = `${capitalize(side)} ${whereWords(point.at, display.full("lift", point.lift))}`;
  const number = { text: headlineNumber(context, point.flow, decimals), unit: display.unit("flow") };
  if (point.before === undefined) {
    const plusMinus = point.uncertainty;
    const known = !pair && plusMinus !== undefined ? { was: `±\u00a0${display.digits("flow", plusMinus)}` } : {};
    return { heading, number, ...known };
  }
  const was = `was ${headlineNumber(context, point.before, decimals)}`;
  const change = changeWords(point, pair);
  return {
    heading,
    number,
    ...verdictAt(point, pair, alike),
    was: change === "" ? was : `${was}; at this lift ${change}`,
  };
}

/** "+22.6 % ± 2.3", where a number may be printed. */
export function changeWords({ change, before }: ComparisonPoint, pair: Comparison | undefined): string {
  if (!change || !before) return "";
  const { uncertainty_m3_s: plusMinus, verdict } = change;
  if (!mayPrint(verdict, plusMinus, pair)) return "";
  const by = `${formatSignedPercentDigits(change.change_ratio)}\u00a0%`;
  return `${by} ±\u00a0${formatPercentDigits(plusMinus / before)}`;
}

export function verdictAt(
  point: ComparisonPoint,
  pair: Comparison | undefined,
  alike: boolean,
): Pick<FlowPanelCell, "verdict"> {
  const { change, verdict, before } = point;
  if (!verdict) return {};
  const { text, mark } = loneVerdictWords(point, pair);
  if (mark === "level") {
    const plusMinus = change?.uncertainty_m3_s;
    const bound =
      alike && plusMinus !== undefined && before ? `\u00a0${formatPercentDigits(plusMinus / before)}\u00a0%` : "";
    return { verdict: { mark: "open", text: `within ±${bound}` } };
  }
  return { verdict: mark === "unknown" ? { text } : { mark, text } };
}

function stripUnder(
  context: Context,
  { side, pair }: PanelCurves,
  chart: DotStrip | undefined,
): Pick<FlowPanelCell, "strip"> {
  const { first } = endStages(context);
  if (!chart || !first) return {};
  const title = `Change (%), against ${first.name.toLowerCase()}`;
  return {
    strip: {
      title,
      chart,
      alt: stripAlt(`change in ${side} flow at each lift`, chart, pair && averageChangeWords(pair)),
    },
  };
}
