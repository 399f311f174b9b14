import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Model } from "../../model/model.ts";
import type { Figures } from "../figures.ts";
import { type AllSweeps, readAllSweeps } from "../sweep/read-all-sweeps.ts";
import { belowLeakage } from "./below-leakage.ts";
import { checkPlateOff, fixtureOffBore } from "./bench-conditions.ts";
import { beyondReadings } from "./beyond-readings.ts";
import { chamberSpread, compressionRange, springClearance } from "./chambers-and-springs.ts";
import { formattersFor, type JobRule, type SideRule, type StageRule, sideScenes, stageScenes } from "./check-input.ts";
import { curtainCoefficient } from "./curtain-coefficient.ts";
import { equalNeighbours } from "./equal-neighbours.ts";
import { exhaustShare } from "./exhaust-share.ts";
import type { Finding } from "./finding.ts";
import { grownMetal } from "./grown-metal.ts";
import { lastingStep } from "./lasting-step.ts";
import { leakageShare } from "./leakage-share.ts";
import { minimumAreaCoefficient } from "./minimum-area-coefficient.ts";
import { offTrend } from "./off-trend.ts";
import { pastedTwice } from "./pasted-twice.ts";
import { pinchShare, portVolumeShare, seatWidth, throatShare } from "./port-dimensions.ts";
import { sweepsApart } from "./sweeps-apart.ts";
import { unlikeConditions } from "./unlike-conditions.ts";
import { zeroFlow } from "./zero-flow.ts";

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
  chamberSpread,
  springClearance,
  compressionRange,
];
const JOB_RULES: readonly JobRule[] = [belowLeakage, pastedTwice, unlikeConditions];

/**
 * Whether the figures can be true: errors for what no valve can do, warnings for what is odd. Each names the reading, and a
 * likely cause as its hint. The same finding is given once.
 *
 *     every rule on every side, stage and job
 *
 * @param model    the model from which the figures were computed
 * @param figures  the figures
 * @param sweeps   its sweeps, where they are read already
 * @returns        errors and warnings, readings first, in the order of the rules; both empty for a plausible job
 */
export function checkFigures(
  model: Model,
  figures: Figures,
  sweeps: AllSweeps = readAllSweeps(model),
): { errors: Diagnostic[]; warnings: Diagnostic[] } {
  const say = formattersFor(model.units);
  const sides = sideScenes(model, figures, sweeps, say);
  const stages = stageScenes(model, figures, say);
  return partitionBySeverity([
    ...SIDE_RULES.flatMap((rule) => sides.flatMap(rule)),
    ...STAGE_RULES.flatMap((rule) => stages.flatMap(rule)),
    ...JOB_RULES.flatMap((rule) => rule({ model, figures, sweeps, sides, say })),
  ]);
}

function partitionBySeverity(findings: readonly Finding[]): { errors: Diagnostic[]; warnings: Diagnostic[] } {
  const once = [...new Map(findings.map((finding) => [`${finding.code} ${finding.message}`, finding])).values()];
  return {
    errors: once.filter((finding) => finding.severity === "error").map(diagnosticOf),
    warnings: once.filter((finding) => finding.severity !== "error").map(diagnosticOf),
  };
}

function diagnosticOf(finding: Finding): Diagnostic {
  return { ...finding, severity: finding.severity ?? "warning" };
}
