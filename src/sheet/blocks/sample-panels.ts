import { formatNumber } from "../../units/show.ts";
import type { ChartRow, FlowPanel, Series, SpreadChart } from "../content.ts";
import type { BlockBuilder, Context } from "../context.ts";
import { findAtLift } from "../lifts.ts";
import { liftAxis, panelAxis } from "../panel-axis.ts";
import { leadingReading, type SampleReading, sampledSides } from "../sample.ts";
import { section } from "../section.ts";
import { panelAlt } from "../words/chart-alt.ts";
import { conditionWords, formatPressure, sharedSampleWords } from "../words/conditions.ts";
import { monthsMeasured, typicalWords } from "../words/identity.ts";
import { capitalize } from "../words/text.ts";
import { HALF_PLOT, LABELS, WHOLE_PLOT } from "./flow-panels.ts";

/** Fewer heads make no spread. */
const FEWEST = 3;
/** Heights between which the plot grows: beside the spread, and alone [pt]. */
const PLOT = { least: 68, most: 190, alone: 240 } as const;

/** Mean flow of both sides on one panel, beside each head against that mean. */
export const samplePanels: BlockBuilder = (context, place) => {
  const { figures, display } = context;
  const sample = figures.sample;
  const sides = sampledSides(context);
  if (!sample || sides.length === 0) return [];
  const spread = sample.n >= FEWEST ? spreadChart(context) : undefined;
  const panel = meanPanel(context, spread ? HALF_PLOT : WHOLE_PLOT);
  const title = sample.n > 1 ? `Flow, mean of ${sample.n} heads` : "Flow, as measured";
  const own = { title, chart: panel, alt: panelAlt(`flow against valve lift over ${sample.n} heads`, panel) };
  const beside = spread && {
    title: "Each head against that mean",
    chart: spread,
    alt: spreadAlt(spread, display.unit("flow")),
  };
  const part: ChartRow = {
    kind: "charts",
    headed: true,
    charts: beside ? [own, beside] : [own],
    height: place.cell.height ?? PLOT.least + LABELS,
    ...(place.cell.height === undefined
      ? { grow: [PLOT.least + LABELS, (beside ? PLOT.most : PLOT.alone) + LABELS] }
      : {}),
    caption: caption(context, spread),
  };
  return section(place, undefined, [part]);
};

function meanPanel(context: Context, width: number): FlowPanel {
  const { display, figures, theme } = context;
  const sides = sampledSides(context);
  const series = sides.map(({ side, figures: { readings } }): Series => {
    const points = readings.map((one) => ({
      x: display.number("lift", one.lift_m),
      y: display.number("flow", one.mean_m3_s),
      kind: "good" as const,
    }));
    const name = capitalize(side);
    return { name, label: name, style: theme.series.latest, curve: points.map(({ x, y }) => [x, y] as const), points };
  });
  const rings = sides.flatMap(({ figures: own }) => {
    const reading = leadingReading(own, figures.sample!.n);
    if (!reading) return [];
    const { lift_m: lift, mean_m3_s: mean } = reading;
    const label = display.digits("flow", mean);
    return [{ x: display.number("lift", lift), y: display.number("flow", mean), label }];
  });
  const all = series.flatMap(({ points }) => points);
  return {
    kind: "flow-panel",
    x: { title: `lift, ${display.unit("lift")}`, ...liftAxis(Math.max(...all.map(({ x }) => x)), width) },
    y: { title: display.unit("flow"), ...panelAxis(Math.max(...all.map(({ y }) => y)), PLOT.least) },
    series,
    rings,
  };
}

/** Deviations of each head from the mean at low, mid and high lift, in percent. */
function spreadChart(context: Context): SpreadChart | undefined {
  const { display, figures, theme } = context;
  const n = figures.sample!.n;
  const groups = sampledSides(context).flatMap(({ side, figures: own }) => {
    const named = own.compared.flatMap(({ lift_m }) => findAtLift(own.readings, lift_m) ?? []);
    const rows = named
      .filter((reading) => reading.n === n)
      .map((reading) => spreadRow(context, reading, leadingReading(own, n)));
    return rows.length > 0 ? [{ name: capitalize(side), rows }] : [];
  });
  if (groups.length === 0) return undefined;
  const widest = Math.max(
    ...groups.flatMap(({ rows }) => rows.flatMap(({ dots, zone = 0 }) => [zone, ...dots.map(Math.abs)])),
  );
  const tick = [0.5, 1, 2, 5, 10, 20, 50].findLast((one) => one <= widest) ?? 0.5;
  return {
    kind: "spread",
    groups,
    reach: Math.max(widest * 1.08, tick),
    tick,
    color: theme.colors.accent,
    x: { title: "at lift of" },
    y: { title: display.unit("flow") },
  };
}

function spreadRow({ display }: Context, reading: SampleReading, leading: SampleReading | undefined) {
  const { lift_m: lift, mean_m3_s: mean, flows_m3_s: flows, uncertainty_m3_s: plusMinus } = reading;
  return {
    label: display.full("lift", lift),
    dots: flows.map((flow) => 100 * (flow / mean - 1)),
    ...(plusMinus === undefined ? {} : { zone: (100 * plusMinus) / mean }),
    value: display.digits("flow", mean),
    ...(reading === leading ? { strong: true as const } : {}),
  };
}

function caption(context: Context, spread: SpreadChart | undefined): string {
  const { display, figures, model } = context;
  const sides = sampledSides(context);
  const n = figures.sample!.n;
  const names = sides.map(({ side }) => side);
  const reported = formatPressure(model.reference.testPressure, display);
  const conditions = sharedSampleWords(model.samples, (bench) => conditionWords(bench, names, display));
  const rows = spread?.groups.flatMap((group) => group.rows) ?? [];
  const zoned = rows.some(({ zone }) => zone !== undefined);
  const which = sides.length > 1 ? "the two numbers above" : "the number above";
  return [
    `${typicalWords(n)}${monthsMeasured(model.samples)}, reported at ${reported}: ${conditions.join(" · ")}.`,
    `Ringed: ${which}.`,
    ...(n > 1 ? [`No head is further than ${greatestDeviation(context)} % from the mean at any lift.`] : []),
    ...(zoned ? ["Between the bars: the ± of one reading, part of it common to all."] : []),
  ].join(" ");
}

/** The greatest deviation of a head from the mean, rounded up to a tenth [%]. */
function greatestDeviation(context: Context): string {
  const ratios = sampledSides(context).flatMap(({ figures: { readings } }) =>
    readings.flatMap(({ mean_m3_s: mean, low_m3_s: low, high_m3_s: high }) => [1 - low / mean, high / mean - 1]),
  );
  return formatNumber(Math.ceil(Math.max(...ratios) * 1000 - 1e-9) / 10, 1);
}

function spreadAlt({ groups }: SpreadChart, unit: string): string {
  const words = groups.map(({ name, rows }) => {
    const said = rows.map(({ label, dots, value }) => {
      const [low, high] = [Math.min(...dots), Math.max(...dots)].map((one) => formatNumber(one, 1));
      return `At ${label} ${low} to ${high} % about ${value} ${unit}.`;
    });
    return `${name}: ${said.join(" ")}`;
  });
  return `Dots of each head's flow against the mean of all. ${words.join(" ")}`;
}
