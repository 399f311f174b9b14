import { visibleText } from "../../diagnostics/visible.ts";
import type { Comparison } from "../../figures/figures.ts";
import type { DisplayUnits } from "../../model/model.ts";
import { isClear } from "../../model/verdict.ts";
import { formatPercent } from "../../sheet/display.ts";
import { averageVerdict, averageVerdictWords } from "../../sheet/words/average-change.ts";
import { springRateUnit } from "../../sheet/words/spring-rate.ts";
import { joinWords } from "../../sheet/words/text.ts";
import { claimableVerdict, mayPrint, verdictWords } from "../../sheet/words/verdicts.ts";
import { fromSi } from "../../units/convert.ts";
import { defaultDecimals, formatNumber, show, showChange } from "../../units/show.ts";
import type { Kind } from "../../units/table.ts";
import type { JobDiff, JobLine, ReadingChange, SizeChange, StageDiff, StageVerdict, TextChange } from "./job-diff.ts";

/** Relative rounding error of binary fractions. */
const ROUNDING_ERROR = 1e-9;
/** Additional digits for two values that round alike. */
const EXTRA_DECIMALS = 3;

/** Formats the changes for a terminal. */
export function formatDiff(diff: JobDiff, units: DisplayUnits): string {
  const name = ({ number, revision, title }: JobDiff["from"]) => `${number} revision ${revision}, ${title}`;
  const sections = [
    section("stated", diff.header.map(headerLine)),
    section(
      "sizes",
      diff.sizes.map((size) => sizeLine(size, units)),
    ),
    ...diff.stages.map((stage) => section(stageTitle(stage, diff, units), stageLines(stage, units))),
    section("verdicts within each, that are another now", diff.verdicts.map(verdictLine)),
    section("stages", [
      ...diff.stages_removed.map((stage) => `− ${stage}`),
      ...diff.stages_added.map((stage) => `+ ${stage}`),
    ]),
    section("lines", [
      ...diff.lines_removed.map((line) => `− ${lineText(line)}`),
      ...diff.lines_added.map((line) => `+ ${lineText(line)}`),
    ]),
  ].flat();
  const head = [visibleText(`${name(diff.from)}`), visibleText(`→ ${name(diff.to)}`)];
  const nothing = sections.length === 0 ? ["", "nothing changed"] : [];
  return `${[...head, ...sections, ...nothing].join("\n")}\n`;
}

const section = (title: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : ["", visibleText(title), ...lines.map((line) => `  ${visibleText(line)}`)];

const headerLine = ({ what, from, to }: TextChange) => {
  if (from === undefined) return `${what}: ${to}`;
  return to === undefined ? `${what}: no longer stated (was ${from})` : `${what}: ${from} → ${to}`;
};

function sizeLine({ what, stage, side, kind, from, to }: SizeChange, units: DisplayUnits): string {
  const places = decimalsFor(from, to, kind, units);
  const value = (si: number | undefined) => (si === undefined ? "not stated" : formatSize(si, kind, units, places));
  const place = [stage, [side, what].filter(Boolean).join(" ")].filter(Boolean).join(", ");
  return `${place}: ${value(from)} → ${value(to)}`;
}

function unitOf(kind: Kind, units: DisplayUnits): string {
  if (kind === "angle") return "deg";
  return kind === "springRate" ? springRateUnit(units.force) : units[kind as keyof DisplayUnits];
}

function formatSize(si: number, kind: Kind, units: DisplayUnits, places: number): string {
  return kind === "ratio" ? formatNumber(si, 0) : show(si, kind, unitOf(kind, units), places);
}

/** Decimals for a size: more where a value was typed finer (a flatness of 0.0015 in) or both would look equal. */
function decimalsFor(from: number | undefined, to: number | undefined, kind: Kind, units: DisplayUnits): number {
  if (kind === "ratio") return 0;
  const numbers = [from, to].flatMap((si) => (si === undefined ? [] : [fromSi(si, kind, unitOf(kind, units))]));
  const usual = defaultDecimals(kind, unitOf(kind, units));
  const isExact = (places: number) => {
    const [a, b] = numbers.map((one) => one.toFixed(places));
    return (
      a !== b && numbers.every((one) => Math.abs(Number(one.toFixed(places)) - one) < ROUNDING_ERROR * Math.abs(one))
    );
  };
  const looksSame = numbers.length > 1 && numbers[0]!.toFixed(usual) === numbers[1]!.toFixed(usual);
  const finer = [usual, usual + 1, usual + 2].find(isExact);
  return finer ?? (looksSame ? usual + EXTRA_DECIMALS : usual);
}

function stageTitle({ from, to }: StageDiff, diff: JobDiff, units: DisplayUnits): string {
  const names = from === to ? to : `${from} → ${to}`;
  return `${names}, flows at ${show(diff.test_pressure_Pa, "pressure", units.pressure)}`;
}

function stageLines({ unlike, readings, figures }: StageDiff, units: DisplayUnits): string[] {
  const flowLines = figures.flatMap((pair) => figureLines(pair, units));
  return [
    ...(unlike.length > 0 && (flowLines.length > 0 || readings.length > 0)
      ? [`measured unlike: ${unlike.join("; ")}`]
      : []),
    ...readings.map((one) => readingLine(one, units)),
    ...flowLines,
  ];
}

function readingLine({ side, cylinder, lift_m, from, to }: ReadingChange, units: DisplayUnits): string {
  const marks: Record<string, string> = { doubtful: " doubtful", noisy: " noisy", "struck out": " struck out" };
  const readingsText = (all: ReadingChange["from"]) =>
    all.length === 0
      ? "none"
      : joinWords(
          all.map(({ flow_m3_s: flow, kind }) =>
            flow === undefined ? "missing" : `${show(flow, "flow", units.flow)}${marks[kind] ?? ""}`,
          ),
        );
  return `read, ${side}, cylinder ${cylinder}, at ${show(lift_m, "length", units.length)}: ${readingsText(from)} → ${readingsText(to)}`;
}

/** The mean, and each lift whose difference exceeds its ±; the others are counted by verdict. Empty for equal flows. */
function figureLines(pair: Comparison, units: DisplayUnits): string[] {
  const { side, changes } = pair;
  if (changes.length > 0 && changes.every(({ change_m3_s: change }) => change === 0)) return [];
  const verdict = averageVerdict(pair);
  const mean =
    verdict === undefined ? [] : [`${side} flow on average ${meanText(pair)}${averageVerdictWords(pair)?.text}`];
  const measured = changes.map((change) => ({
    ...change,
    verdict: claimableVerdict(change.verdict, change.uncertainty_m3_s),
  }));
  const clear = measured
    .filter((change) => isClear(change.verdict))
    .map(
      (change) =>
        `${side} at ${show(change.lift_m, "length", units.length)}: ${showChange(change.change_m3_s, "flow", units.flow)} ± ${show(change.uncertainty_m3_s as number, "flow", units.flow)}, ${verdictWords(change.verdict).text}${change.interpolated ? " (between readings)" : ""}`,
    );
  const counts = (["within repeatability", "too few repeats"] as const).flatMap((one) => {
    const n = measured.filter((change) => change.verdict === one).length;
    return n === 0 ? [] : [`${n} ${n === 1 ? "lift" : "lifts"} ${verdictWords(one, pair).text}`];
  });
  return [...mean, ...clear, ...(counts.length > 0 ? [`${side}: ${counts.join(", ")}`] : [])];
}

function meanText(pair: Comparison): string {
  const { mean_change_ratio: ratio = 0, mean_change_uncertainty_ratio: u } = pair;
  return mayPrint(averageVerdict(pair), u, pair) ? `${showChange(ratio, "ratio", "%", 1)} ± ${formatPercent(u)}, ` : "";
}

function verdictLine({ side, from_stage, to_stage, from, to }: JobDiff["verdicts"][number]): string {
  const words = (change: StageVerdict | undefined) => change?.verdict ?? "not compared";
  return `${side}, ${from_stage} to ${to_stage}: ${words(from)} → ${words(to)}`;
}

const lineText = ({ list, text }: JobLine) => `${list}: ${text}`;
