import type { Diagnostic, Sources } from "../../diagnostics/diagnostic.ts";
import { placeOf, splitLines } from "../../diagnostics/line-counter.ts";
import type { Model } from "../../model/model.ts";
import type { Figures, WarningFigure } from "../figures.ts";
import { type AllSweeps, readAllSweeps } from "../sweep/read-all-sweeps.ts";
import { curtainCoefficient, minimumAreaCoefficient } from "./area-coefficients.ts";
import { checkPlateOff, fixtureOffBore } from "./bench-conditions.ts";
import { chamberSpread, compressionRange, springClearance } from "./chambers-and-springs.ts";
import {
  type Finding,
  formattersFor,
  type JobRule,
  NO_SOURCE,
  type SideRule,
  type Source,
  type StageRule,
  sideCheckInputs,
  stageCheckInputs,
} from "./check-input.ts";
import { exhaustShare } from "./exhaust-share.ts";
import { grownMetal } from "./grown-metal.ts";
import { lastingStep } from "./lasting-step.ts";
import { belowLeakage, leakageShare } from "./leakage.ts";
import { beyondReadings, equalNeighbours, zeroFlow } from "./lift-setting.ts";
import { offTrend } from "./off-trend.ts";
import { oneMessageEach } from "./one-message.ts";
import { pastedTwice } from "./pasted-twice.ts";
import { pinchShare, portVolumeShare, seatWidth, throatShare } from "./port-dimensions.ts";
import { staleDimensions } from "./stale-dimensions.ts";
import { sweepsApart } from "./sweeps-apart.ts";
import { unlikeConditions } from "./unlike-conditions.ts";
import { liftTwice, wrongRow } from "./wrong-lifts.ts";

const SIDE_RULES: readonly SideRule[] = [
  curtainCoefficient,
  minimumAreaCoefficient,
  zeroFlow,
  lastingStep,
  offTrend,
  equalNeighbours,
  leakageShare,
  sweepsApart,
  beyondReadings,
];
const STAGE_RULES: readonly StageRule[] = [
  exhaustShare,
  fixtureOffBore,
  checkPlateOff,
  throatShare,
  seatWidth,
  portVolumeShare,
  pinchShare,
  grownMetal,
  staleDimensions,
  chamberSpread,
  springClearance,
  compressionRange,
];
const JOB_RULES: readonly JobRule[] = [liftTwice, wrongRow, belowLeakage, pastedTwice, unlikeConditions];

/**
 * Plausibility checks on the figures: errors for the physically impossible, warnings for the unlikely. Each names the
 * reading, with a likely cause as its hint. One slip, one finding: see `oneMessageEach`.
 *
 *     every rule on every side, stage and job, one message for each slip
 *
 * @param model    the model from which the figures were computed
 * @param figures  the figures
 * @param sweeps   its sweeps, if already computed
 * @param source   the files of the job, for places and texts of its keys
 * @returns        errors and warnings, readings first, in the order of the rules; both empty for a plausible job
 */
export function checkFigures(
  model: Model,
  figures: Figures,
  sweeps: AllSweeps = readAllSweeps(model),
  source: Source = NO_SOURCE,
): { errors: Diagnostic[]; warnings: Diagnostic[] } {
  return partitionBySeverity(oneMessageEach(findingsOf(model, figures, sweeps, source)));
}

/**
 * What every rule finds, also what follows from another finding and is not reported.
 *
 *     every rule on every side, stage and job
 *
 * @param model    the model from which the figures were computed
 * @param figures  the figures
 * @returns        errors and warnings, in the order of the rules
 */
export function checkEachRule(model: Model, figures: Figures): { errors: Diagnostic[]; warnings: Diagnostic[] } {
  return partitionBySeverity(findingsOf(model, figures, readAllSweeps(model), NO_SOURCE));
}

function findingsOf(model: Model, figures: Figures, sweeps: AllSweeps, source: Source): readonly Finding[] {
  const format = formattersFor(model.units);
  const sides = sideCheckInputs(model, figures, sweeps, format);
  const stages = stageCheckInputs(model, figures, format, source);
  return [
    ...SIDE_RULES.flatMap((rule) => sides.flatMap(rule)),
    ...STAGE_RULES.flatMap((rule) => stages.flatMap(rule)),
    ...JOB_RULES.flatMap((rule) => rule({ model, figures, sweeps, sides, format })),
  ];
}

function partitionBySeverity(findings: readonly Finding[]): { errors: Diagnostic[]; warnings: Diagnostic[] } {
  const once = [
    ...new Map(findings.toReversed().map((finding) => [`${finding.code} ${finding.message}`, finding])).values(),
  ].toReversed();
  return {
    errors: once.filter((finding) => finding.severity === "error").map(toDiagnostic),
    warnings: once.filter((finding) => finding.severity !== "error").map(toDiagnostic),
  };
}

function toDiagnostic({ subject: _, proposes: __, cause: ___, ...finding }: Finding): Diagnostic {
  return { ...finding, severity: finding.severity ?? "warning" };
}

/**
 * A warning in the format of the figures: its text with the hint, and its position where the source text is available.
 *
 *     text = message, colon, hint
 *
 * @param warning  the warning
 * @param sources  source texts by file name
 * @returns        code, text and place; line and column, from 1, only with the source text available
 * @example        warningFigure({ severity: "warning", code: "a/b", message: "odd", hint: "look" }, new Map()).text // "odd: look"
 */
export function warningFigure({ code, message, hint, at }: Diagnostic, sources: Sources): WarningFigure {
  const text = hint === undefined ? message : `${message}: ${hint}`;
  const source = at === undefined ? undefined : sources.get(at.file);
  if (at === undefined || source === undefined) return { code, text, ...(at === undefined ? {} : { file: at.file }) };
  const { line, column } = placeOf(splitLines(source), at.start);
  return { code, text, file: at.file, line, column };
}
