import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { Model } from "../model/model.ts";
import type { Figures } from "./figures.ts";
import { type AllSweeps, readAllSweeps } from "./read-all-sweeps.ts";
import { belowLeakage } from "./warnings/below-leakage.ts";
import { checkPlateOff, fixtureOffBore } from "./warnings/bench-conditions.ts";
import { beyondReadings } from "./warnings/beyond-readings.ts";
import { chamberSpread, compressionRange, springClearance } from "./warnings/chambers-and-springs.ts";
import { curtainCoefficient } from "./warnings/curtain-coefficient.ts";
import { equalNeighbours } from "./warnings/equal-neighbours.ts";
import { exhaustShare } from "./warnings/exhaust-share.ts";
import type { Finding } from "./warnings/finding.ts";
import { grownMetal } from "./warnings/grown-metal.ts";
import { lastingStep } from "./warnings/lasting-step.ts";
import { leakageShare } from "./warnings/leakage-share.ts";
import { minimumAreaCoefficient } from "./warnings/minimum-area-coefficient.ts";
import { offTrend } from "./warnings/off-trend.ts";
import { pastedTwice } from "./warnings/pasted-twice.ts";
import { pinchShare, portVolumeShare, seatWidth, throatShare } from "./warnings/port-dimensions.ts";
import { type JobRule, type SideRule, type StageRule, sayIn, sideScenes, stageScenes } from "./warnings/scene.ts";
import { sweepsApart } from "./warnings/sweeps-apart.ts";
import { unlikeConditions } from "./warnings/unlike-conditions.ts";
import { zeroFlow } from "./warnings/zero-flow.ts";

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
  const say = sayIn(model.units);
  const sides = sideScenes(model, figures, sweeps, say);
  const stages = stageScenes(model, figures, say);
  return told([
    ...SIDE_RULES.flatMap((rule) => sides.flatMap(rule)),
    ...STAGE_RULES.flatMap((rule) => stages.flatMap(rule)),
    ...JOB_RULES.flatMap((rule) => rule({ model, figures, sweeps, sides, say })),
  ]);
}

function told(findings: readonly Finding[]): { errors: Diagnostic[]; warnings: Diagnostic[] } {
  const once = [...new Map(findings.map((finding) => [`${finding.code} ${finding.message}`, finding])).values()];
  return {
    errors: once.filter((finding) => finding.severity === "error").map(diagnosticOf),
    warnings: once.filter((finding) => finding.severity !== "error").map(diagnosticOf),
  };
}

function diagnosticOf(finding: Finding): Diagnostic {
  return { ...finding, severity: finding.severity ?? "warning" };
}
