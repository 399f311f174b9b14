import type { EngineFigures } from "../../figures/figures.ts";
import { PINCH_BAND } from "../../model/constants.ts";
import { formatNumber } from "../../units/show.ts";
import type { FlowPanel } from "../content.ts";
import { type BlockBuilder, type Context, endStages } from "../context.ts";
import { otherEngines } from "../other-engines.ts";
import { paragraph, presentItems, section } from "../section.ts";
import { formatRpm, meetingSpeedWords, type SpeedLine, speedPanel } from "../speed-panel.ts";
import { panelAlt } from "../words/chart-alt.ts";
import { PINCH_BAND_WORDS, PINCH_SPEED_CAUTION, pinchMarkWords } from "../words/engine.ts";
import { lowercaseFirst } from "../words/text.ts";
import { speedChart } from "./speed-chart.ts";

/** Gas speed at the pinch against engine speed: a band, never a limit, with its caution. */
export const pinchSpeed: BlockBuilder = (context, place) => {
  const { display, figures } = context;
  if (context.withheld.pinch) return [];
  const lines = speedLines(context);
  const speedAt = (share: number) => display.number("speed", share * figures.reference.air.sound_speed_m_s);
  const { low, high } = { low: speedAt(PINCH_BAND.low), high: speedAt(PINCH_BAND.high) };
  const reached = endStages(context).last?.figures.engine?.pinch_limit_rpm;
  const mark = context.model.report.pinchLimitIsDefault ? undefined : shopMark(context);
  const drawn = lines.filter(({ values }) => values.length > 1);
  const panel = speedPanel(drawn, display.unit("speed"), Math.max(high, mark?.at ?? 0));
  const met = meetingSpeedWords(lines);
  if (!panel && !met) return [];
  const words = presentItems<string>([
    `Calculated. ${panel ? "Grey: common practice" : "Common practice"}, ${PINCH_BAND_WORDS}.`,
    met && `Met at ${met}.`,
    mark && reached !== undefined && `${panel ? "Dotted: " : "Also "}${pinchMarkWords(mark.words, formatRpm(reached))}`,
    PINCH_SPEED_CAUTION,
  ]).join(" ");
  if (!panel) return section(place, TITLE, paragraph(words));
  const chart: FlowPanel = {
    ...panel,
    zone: bandAcross(panel, low, high),
    ...(mark ? { levels: [mark.at] } : {}),
  };
  const alt = panelAlt("gas speed at the intake pinch against engine speed", chart, words);
  return section(place, TITLE, [speedChart(place, chart, alt, words)]);
};

/** Places along a band: names of lines are kept off it there. */
const PLACES = 24;

export function bandAcross(
  { x: { start, end }, y }: FlowPanel,
  low: number,
  high: number,
): NonNullable<FlowPanel["zone"]> {
  const at = (i: number) => start + ((end - start) * i) / PLACES;
  return Array.from({ length: PLACES + 1 }, (_, i) => ({ x: at(i), low, high: Math.min(high, y.end) }));
}

const TITLE = "Gas speed at the intake pinch";

/** The lines of other heads, then those of the stages. */
function speedLines(context: Context): readonly SpeedLine[] {
  const line = (
    names: Pick<SpeedLine, "name" | "said">,
    style: SpeedLine["style"],
    engine: EngineFigures | undefined,
  ): SpeedLine[] => {
    const values = (engine?.pinch_velocity ?? []).map(
      ({ rpm, velocity_m_s }) => [rpm, context.display.number("speed", velocity_m_s)] as const,
    );
    const band = engine?.pinch_band_rpm;
    return values.length < 2 && !band ? [] : [{ ...names, style, values, met: band ? [band.low, band.high] : [] }];
  };
  const own = context.stages.flatMap(({ name, style, figures: { engine } }) =>
    line({ name, said: lowercaseFirst(name) }, style, engine),
  );
  return own.length === 0
    ? []
    : [
        ...otherEngines(context).flatMap((one) => line({ name: one.label, said: one.label }, one.style, one.engine)),
        ...own,
      ];
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
