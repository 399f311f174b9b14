import { SIDES } from "../../model/model.ts";
import type { ChartRow } from "../content.ts";
import { type Context, endStages, flowedFigures, type SheetStage } from "../context.ts";
import { portNotes } from "../port-notes.ts";
import { presentItems } from "../section.ts";
import { chartMarkWords } from "../words/chart-marks.ts";
import { conditionWords, formatPressure, sharedSampleWords } from "../words/conditions.ts";
import { dateWords } from "../words/dates.ts";
import { monthsMeasured } from "../words/identity.ts";
import { capitalize, countWords, joinWords } from "../words/text.ts";

/** What must be known to read the small chart. */
export function chartCaption(context: Context, charts: ChartRow["charts"]): string {
  const { first, last } = endStages(context);
  const lines = charts.flatMap(({ chart }) => (chart.kind === "line" ? chart.series : []));
  const many = context.stages.length > 1;
  return presentItems<string>([
    first && last && `Solid: ${last.name.toLowerCase()}. Dashed: ${first.name.toLowerCase()}.`,
    ...chartMarkWords(lines, many ? last?.name : undefined),
  ]).join(" ");
}

/** On how many parts it was measured, under which conditions, and what it does not promise. */
export function conditionsCaption(context: Context): string {
  const { model, display, figures } = context;
  const { last } = endStages(context);
  const sides = SIDES.filter((side) =>
    figures.sample ? figures.sample[side] !== undefined : flowedFigures(last, side) !== undefined,
  );
  const n = figures.sample?.n;
  const bench = last?.stage.sets[0]?.bench;
  const how = figures.sample
    ? sharedSampleWords(model.samples, (one) => conditionWords(one, sides, display))
    : bench
      ? conditionWords(bench, sides, display)
      : [];
  return [
    ...(model.identity.draft ? ["Draft: figures may still change."] : []),
    measuredWords(context, last),
    ...(n === undefined ? portNotes(context, sides, context.stages, "Lines") : []),
    `${capitalize([`reported at ${formatPressure(model.reference.testPressure, display)}`, ...groupUnstated(how)].join(" · "))}.`,
    "Flow is no promise of power.",
  ].join(" ");
}

/** Conditions that were not stated in one item at the end, which leaves the chart more room. */
function groupUnstated(conditions: readonly string[]): readonly string[] {
  const suffix = " not stated";
  const names = conditions.filter((one) => one.endsWith(suffix)).map((one) => one.slice(0, -suffix.length));
  const stated = conditions.filter((one) => !one.endsWith(suffix));
  return names.length === 0 ? stated : [...stated, `${joinWords(names)}${suffix}`];
}

/** On how many parts it was measured, and when, where each of them says so. */
function measuredWords({ model, figures }: Context, last: SheetStage | undefined): string {
  if (figures.sample) return `Measured on ${countWords(figures.sample.n, "part")}${monthsMeasured(model.samples)}.`;
  const day = last?.stage.date;
  return `Measured on this part${day === undefined ? "" : `, ${dateWords(day)}`}.`;
}
