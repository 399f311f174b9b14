import { visible } from "../../diagnostics/visible.ts";
import type { Comparison } from "../../figures/figures.ts";
import type { DisplayUnits } from "../../model/model.ts";
import { percent } from "../../sheet/percent.ts";
import { joinWords } from "../../sheet/words/text.ts";
import { averageVerdict, claimable, isClear, mayPrint, verdictWords } from "../../sheet/words/verdicts.ts";
import { fromSi } from "../../units/convert.ts";
import { defaultDecimals, formatNumber, show, showChange } from "../../units/show.ts";
import type { Kind } from "../../units/table.ts";
import type { JobDiff, Line, OwnChange, ReadingChange, SizeChange, StageDiff, TextChange } from "./job-diff.ts";

/** Off what was typed by no more than binary fractions are. */
const TYPED = 1e-9;
/** A change below this many more digits is not told from none. */
const FINEST = 3;

/** What changed, to read in a terminal. */
export function diffText(diff: JobDiff, units: DisplayUnits): string {
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
  const head = [visible(`${name(diff.from)}`), visible(`→ ${name(diff.to)}`)];
  const nothing = sections.length === 0 ? ["", "nothing changed"] : [];
  return `${[...head, ...sections, ...nothing].join("\n")}\n`;
}

const section = (title: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : ["", visible(title), ...lines.map((line) => `  ${visible(line)}`)];

const headerLine = ({ what, from, to }: TextChange) => {
  if (from === undefined) return `${what}: ${to}`;
  return to === undefined ? `${what}: no longer stated (was ${from})` : `${what}: ${from} → ${to}`;
};

function sizeLine({ what, stage, side, kind, from, to }: SizeChange, units: DisplayUnits): string {
  const places = placesOf(from, to, kind, units);
  const value = (si: number | undefined) => (si === undefined ? "not stated" : shown(si, kind, units, places));
  const place = [stage, [side, what].filter(Boolean).join(" ")].filter(Boolean).join(", ");
  return `${place}: ${value(from)} → ${value(to)}`;
}

const unitOf = (kind: Kind, units: DisplayUnits) => (kind === "angle" ? "deg" : units[kind as keyof DisplayUnits]);

function shown(si: number, kind: Kind, units: DisplayUnits, places: number): string {
  return kind === "ratio" ? formatNumber(si, 0) : show(si, kind, unitOf(kind, units), places);
}

/** Finer than usual where one was typed finer, a flatness of 0.0015 in, or where both would look the same. */
function placesOf(from: number | undefined, to: number | undefined, kind: Kind, units: DisplayUnits): number {
  if (kind === "ratio") return 0;
  const numbers = [from, to].flatMap((si) => (si === undefined ? [] : [fromSi(si, kind, unitOf(kind, units))]));
  const usual = defaultDecimals(kind, unitOf(kind, units));
  const told = (places: number) => {
    const [a, b] = numbers.map((one) => one.toFixed(places));
    return a !== b && numbers.every((one) => Math.abs(Number(one.toFixed(places)) - one) < TYPED * Math.abs(one));
  };
  const looksSame = numbers.length > 1 && numbers[0]!.toFixed(usual) === numbers[1]!.toFixed(usual);
  const finer = [usual, usual + 1, usual + 2].find(told);
  return finer ?? (looksSame ? usual + FINEST : usual);
}

function stageTitle({ from, to }: StageDiff, diff: JobDiff, units: DisplayUnits): string {
  const names = from === to ? to : `${from} → ${to}`;
  return `${names}, flows at ${show(diff.test_pressure_Pa, "pressure", units.pressure)}`;
}

function stageLines({ unlike, readings, figures }: StageDiff, units: DisplayUnits): string[] {
  const said = figures.flatMap((pair) => figureLines(pair, units));
  return [
    ...(unlike.length > 0 && (said.length > 0 || readings.length > 0) ? [`measured unlike: ${unlike.join("; ")}`] : []),
    ...readings.map((one) => readingLine(one, units)),
    ...said,
  ];
}

function readingLine({ side, cylinder, lift_m, from, to }: ReadingChange, units: DisplayUnits): string {
  const marks: Record<string, string> = { doubtful: " doubtful", noisy: " noisy", "struck out": " struck out" };
  const side_ = (all: ReadingChange["from"]) =>
    all.length === 0
      ? "none"
      : joinWords(
          all.map(({ flow_m3_s: flow, kind }) =>
            flow === undefined ? "missing" : `${show(flow, "flow", units.flow)}${marks[kind] ?? ""}`,
          ),
        );
  return `read, ${side}, cylinder ${cylinder}, at ${show(lift_m, "length", units.length)}: ${side_(from)} → ${side_(to)}`;
}

/** The mean, and each lift whose difference is beyond its ±; the others are counted by their verdict. Nothing for equal flows. */
function figureLines(pair: Comparison, units: DisplayUnits): string[] {
  const { side, changes } = pair;
  if (changes.length > 0 && changes.every(({ change_m3_s: change }) => change === 0)) return [];
  const verdict = averageVerdict(pair);
  const uncertainty = pair.mean_change_uncertainty_ratio;
  const mean =
    verdict === undefined
      ? []
      : [
          `${side} flow on average ${pair.verdict_withheld ? "" : number(pair.mean_change_ratio as number, uncertainty, verdict)}${verdictWords(verdict, pair).text}`,
        ];
  const measured = changes.map((change) => ({
    ...change,
    verdict: claimable(change.verdict, change.uncertainty_m3_s),
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

const number = (ratio: number, uncertainty: number | undefined, verdict: Parameters<typeof mayPrint>[0]) =>
  mayPrint(verdict, uncertainty) ? `${showChange(ratio, "ratio", "%", 1)} ± ${percent(uncertainty)}, ` : "";

function verdictLine({ side, from_stage, to_stage, from, to }: JobDiff["verdicts"][number]): string {
  const words = (change: OwnChange | undefined) => change?.verdict ?? "not compared";
  return `${side}, ${from_stage} to ${to_stage}: ${words(from)} → ${words(to)}`;
}

const lineText = ({ list, text }: Line) => `${list}: ${text}`;
