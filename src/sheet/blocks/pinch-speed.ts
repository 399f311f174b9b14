import type { EngineFigures } from "../../figures/figures.ts";
import { PINCH_BAND } from "../../model/constants.ts";
import type { SeriesStyle } from "../../theme/theme.ts";
import { formatNumber } from "../../units/show.ts";
import type { LineChart, Part, Series } from "../content.ts";
import { type BlockBuilder, type Context, endStages } from "../context.ts";
import { sharedAxes } from "../flow-curves.ts";
import { niceAxis } from "../nice-axis.ts";
import { otherEngines } from "../other-engines.ts";
import { paragraph, presentItems, section } from "../section.ts";
import { lineAlt } from "../words/chart-alt.ts";
import { PINCH_BAND_WORDS, PINCH_SPEED_CAUTION, pinchBandWords, pinchMarkWords } from "../words/engine.ts";

const HEIGHT = 150;

/** Gas speed at the pinch against engine speed: a band, never a limit, with its caution. */
export const pinchSpeed: BlockBuilder = (context, place) => {
  if (context.withheld.pinch) return [];
  const { last } = endStages(context);
  const reached = last?.figures.engine?.pinch_limit_rpm;
  const mark = context.model.report.pinchLimitIsDefault ? undefined : shopMark(context);
  const band = last?.figures.engine?.pinch_band_rpm;
  const words = band ? pinchBandWords(formatRpm(band.low), formatRpm(band.high), otherBands(context)) : undefined;
  const chart = speedChart(context, mark);
  if (!chart && !words) return [];
  const charts: readonly Part[] = chart
    ? [
        {
          kind: "charts",
          height: place.cell.height ?? HEIGHT,
          charts: [
            {
              title: "Intake",
              chart,
              alt: lineAlt("gas speed at the intake pinch against engine speed", chart, words),
            },
          ],
          caption: `Calculated from bore, stroke, rod and pinch. The band is common practice: ${PINCH_BAND_WORDS}.`,
        },
      ]
    : [];
  return section(place, "Gas speed at the pinch", [
    ...charts,
    ...paragraph(
      presentItems([words, mark && reached !== undefined && pinchMarkWords(mark.words, formatRpm(reached))]).join(" "),
    ),
    { kind: "caution", signal: "Note", text: PINCH_SPEED_CAUTION },
  ]);
};

const otherBands = (context: Context) =>
  otherEngines(context).flatMap(({ label, engine: { pinch_band_rpm: band } }) =>
    band ? [{ label, low: formatRpm(band.low), high: formatRpm(band.high) }] : [],
  );

/** Engine speeds to the nearest hundred: the band is no finer. */
const formatRpm = (speed: number) => formatNumber(Math.round(speed / 100) * 100, 0);

function speedChart(context: Context, mark: Mark | undefined): LineChart | undefined {
  const { display, figures } = context;
  const line = (name: string, style: SeriesStyle, engine: EngineFigures | undefined): Series[] => {
    const speeds = engine?.pinch_velocity ?? [];
    if (speeds.length < 2) return [];
    const curve = speeds.map((item) => [item.rpm, display.number("speed", item.velocity_m_s)] as const);
    return [{ name, label: name, style, curve, points: [] }];
  };
  const own = context.stages.flatMap(({ name, style, figures: { engine } }) => line(name, style, engine));
  const series =
    own.length === 0 ? [] : [...otherEngines(context).flatMap((one) => line(one.label, one.style, one.engine)), ...own];
  const ends = series.flatMap(({ curve }) => curve.map(([speed]) => speed));
  if (ends.length === 0) return undefined;
  const [from, to] = [Math.min(...ends), Math.max(...ends)];
  const speedAt = (share: number) => display.number("speed", share * figures.reference.air.sound_speed_m_s);
  const { low, high } = { low: speedAt(PINCH_BAND.low), high: speedAt(PINCH_BAND.high) };
  const unit = display.unit("speed");
  const top = Math.max(high, mark?.at ?? 0);
  const { y } = sharedAxes([series], { x: "", y: `Gas speed at the pinch (${unit})` }, { y: top });
  return {
    kind: "line",
    x: { title: "Engine speed (rpm)", ...niceAxis(from, to, 8) },
    y,
    series,
    bands: [{ label: "common band", points: [from, to].map((x) => ({ x, low, high })) }],
    ...(mark ? { marks: [{ axis: "y", at: mark.at, label: `the shop's mark, ${mark.words}` }] } : {}),
  };
}

/** The shop's own gas speed mark beside the common band, in the chart's unit and in words. */
type Mark = { readonly at: number; readonly words: string };

function shopMark({ display, figures, model }: Context): Mark {
  const { pinchLimit } = model.report;
  if (pinchLimit.kind === "absolute")
    return { at: display.number("speed", pinchLimit.value), words: display.full("speed", pinchLimit.value) };
  return {
    at: display.number("speed", pinchLimit.value * figures.reference.air.sound_speed_m_s),
    words: `${formatNumber(pinchLimit.value, 2)} of the speed of sound`,
  };
}
