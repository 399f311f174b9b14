import { formatReadingsCsv } from "../embed/readings-csv.ts";
import type { Comparison, Figures, ReadingFigures, SideFigures, StageFigures } from "../figures/figures.ts";
import { type DisplayUnits, SIDES, type Side } from "../model/model.ts";
import { evaluateJob, type Overrides } from "../pipeline/evaluate.ts";
import { averageVerdictWords } from "../sheet/words/average-change.ts";
import { verdictWords } from "../sheet/words/verdicts.ts";
import { show, showNumber, unitSymbol } from "../units/show.ts";
import type { Environment, ExitCode } from "./environment.ts";
import { comparisonBudgets, sideBudgets } from "./figures-budgets.ts";
import { fitLines } from "./fit-width.ts";
import { formatTable } from "./format-table.ts";
import { report } from "./report.ts";

/** Prints a job's figures as tables, its figures as JSON, or its readings as CSV. */
export function showFigures(
  job: string,
  form: "text" | "json" | "csv",
  overrides: Overrides,
  environment: Environment,
): ExitCode {
  const { drawable, diagnostics, sources } = evaluateJob(job, overrides, environment.io, environment.cwd);
  report(diagnostics, sources, environment);
  if (!drawable) return 1;
  const { figures, model } = drawable;
  environment.out(
    form === "json"
      ? `${JSON.stringify(figures, null, 2)}\n`
      : form === "csv"
        ? formatReadingsCsv(figures, model.units)
        : fitLines(formatFigures(figures, model.units, environment.width), environment.width),
  );
  return 0;
}

/** Formats the figures as tables for a terminal of that width. */
export function formatFigures(figures: Figures, units: DisplayUnits, width = Number.POSITIVE_INFINITY): string {
  const { title, reference, stages, comparisons } = figures;
  const lines = [
    `${figures.job ?? figures.product}  ${title}`,
    `flow at ${show(reference.test_pressure_Pa, "pressure", units.pressure)}; reference air ${show(reference.air.temperature_K, "temperature", units.temperature)}, ${show(reference.air.pressure_Pa, "pressure", "kPa")}`,
    ...stages.flatMap((stage) => stageLines(stage, units, width)),
    ...comparisons.flatMap((one) => comparisonLines(one, units, width)),
  ];
  return `${lines.join("\n")}\n`;
}

function comparisonLines(one: Comparison, units: DisplayUnits, width: number): string[] {
  const name = ({ stage, label }: { stage: string; label?: string }) => label ?? stage;
  const head = `\n${name(one.from)} → ${name(one.to)}, ${one.side}${one.like_for_like ? "" : ` (not alike: ${one.differences.join("; ")})`}`;
  const average =
    one.mean_change_ratio === undefined
      ? []
      : [
          `average change ${changeText(one.mean_change_ratio, one.mean_change_uncertainty_ratio)}: ${averageVerdictWords(one)?.text}`,
        ];
  const peak = one.peak_change;
  const peaks =
    peak === undefined
      ? []
      : [
          `peak, at ${show(peak.from_lift_m, "length", units.length)} and ${show(peak.to_lift_m, "length", units.length)}: ${percent(peak.change_ratio)}, ${verdictWords(peak.verdict, one).text}`,
        ];
  const rows = one.changes.map((change) => [
    showNumber(change.lift_m, "length", units.length),
    showNumber(change.change_m3_s, "flow", units.flow),
    change.uncertainty_m3_s === undefined ? "" : showNumber(change.uncertainty_m3_s, "flow", units.flow),
    percent(change.change_ratio),
    verdictWords(change.verdict, one).text + (change.interpolated ? " (interpolated)" : ""),
  ]);
  return [
    head,
    ...average,
    ...peaks,
    ...(rows.length > 0 ? [formatTable(["lift", "change", "±", "%", "verdict"], rows, width, [3])] : []),
    ...comparisonBudgets(one, units, width),
  ];
}

function stageLines(stage: StageFigures, units: DisplayUnits, width: number): string[] {
  const engine = stage.engine;
  const facts = [
    ...(stage.compression_ratio === undefined ? [] : [`compression ratio ${stage.compression_ratio.toFixed(2)}`]),
    ...(engine?.pinch_limit_rpm === undefined
      ? []
      : [`gas speed at the pinch reaches its limit at ${Math.round(engine.pinch_limit_rpm)} rpm`]),
    ...(engine?.z_limit_rpm === undefined ? [] : [`inlet Mach index 0.6 at ${Math.round(engine.z_limit_rpm)} rpm`]),
  ];
  return [
    `\n${stage.name}${stage.set ? ` (${stage.set})` : ""}`,
    ...facts,
    ...SIDES.flatMap((side) => sideLines(side, stage[side], units, width)),
  ];
}

function sideLines(side: Side, figures: SideFigures | undefined, units: DisplayUnits, width: number): string[] {
  if (!figures || figures.readings.length === 0) return [];
  const { peak, mean_flow: mean, flowed } = figures;
  const facts = [
    `  ${side}: flowed ${flowed.n}${flowed.of === undefined ? "" : ` of ${flowed.of}`}`,
    ...(peak
      ? [`peak ${show(peak.flow_m3_s, "flow", units.flow)} at ${show(peak.lift_m, "length", units.length)}`]
      : []),
    ...(mean
      ? [
          `mean ${show(mean.flow_m3_s, "flow", units.flow)} from ${show(mean.from_lift_m, "length", units.length)} to ${show(mean.to_lift_m, "length", units.length)}`,
        ]
      : []),
  ];
  const head = [
    `lift ${unitSymbol("length", units.length)}`,
    `flow ${unitSymbol("flow", units.flow)}`,
    "±",
    "lift÷dia",
    "Cd min",
    "Cd curtain",
    `pinch ${unitSymbol("speed", units.speed)}`,
    "",
  ];
  return [
    facts.join("; "),
    formatTable(
      head,
      figures.readings.map((reading) => readingRow(reading, units)),
      width,
      // The coefficients and the speed follow from lift and flow.
      [3, 5, 4, 6],
    ),
    ...sideBudgets(figures, units, width),
  ];
}

function readingRow(reading: ReadingFigures, units: DisplayUnits): string[] {
  const fixed = (value: number | undefined, decimals: number) => (value === undefined ? "" : value.toFixed(decimals));
  return [
    showNumber(reading.lift_m, "length", units.length),
    showNumber(reading.flow_m3_s, "flow", units.flow),
    reading.uncertainty_m3_s === undefined ? "" : showNumber(reading.uncertainty_m3_s, "flow", units.flow),
    fixed(reading.lift_to_diameter, 3),
    fixed(reading.discharge_coefficient, 3),
    fixed(reading.curtain_coefficient, 3),
    reading.pinch_velocity_m_s === undefined ? "" : showNumber(reading.pinch_velocity_m_s, "speed", units.speed),
    markText(reading),
  ];
}

/** Why a reading is not as the others; of which cylinders it is where some of the curve lack it. */
function markText({ doubtful, noisy, partial, of_cylinders: cylinders = [] }: ReadingFigures): string {
  if (partial) return `only of ${cylinders.join(", ")}`;
  return doubtful ? "doubtful" : noisy ? "noisy" : "";
}

const changeText = (ratio: number, uncertainty: number | undefined): string =>
  `${percent(ratio)}${uncertainty === undefined ? "" : ` ± ${percent(uncertainty)}`}`;

const percent = (ratio: number): string => show(ratio, "ratio", "%", 1);
