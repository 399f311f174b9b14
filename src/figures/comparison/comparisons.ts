import { type Model, SIDES, type Side } from "../../model/model.ts";
import { sameLift } from "../../units/same-lift.ts";
import { columnsSwapped } from "../checks/columns-swapped.ts";
import { engineFigures } from "../engine/engine-figures.ts";
import type { Comparison } from "../figures.ts";
import { type ReportLift, reportLifts } from "../side/report-lifts.ts";
import type { SideBasis } from "../side/side-figures.ts";
import { type AllSweeps, type FlowedStage, stagesFlowedOn } from "../sweep/read-all-sweeps.ts";
import { repeatFloor } from "../sweep/repeat-floor.ts";
import { type ComparisonBasis, comparedSweeps, compareSweeps, type SweepPair } from "./comparison.ts";

/**
 * All comparisons of a job, side by side: each stage with the one before, the last with the first when there are more than
 * two, and the last with each other head. Only stages flowed on that side count; one that measures another again enters no
 * pair, and its distance from that one is the floor under every verdict.
 *
 *     pairs, then their changes
 *
 * @param model   the model
 * @param sweeps  its sweeps
 * @param bases  values that the job's stages share on each side
 * @returns       the comparisons, intake first
 * @example       compareStages({}, { stages: [], compared: [] }, { intake: { lifts: [] }, exhaust: { lifts: [] } }) // []
 */
export function compareStages(model: Model, sweeps: AllSweeps, bases: Readonly<Record<Side, SideBasis>>): Comparison[] {
  return SIDES.flatMap((side) => {
    const stages = stagesFlowedOn(sweeps.stages, side);
    const basis: ComparisonBasis = {
      units: model.units,
      lifts: bases[side].lifts,
      netLift: model.engine?.cams[side]?.netLift,
      floor: repeatFloor(stages.flatMap((one) => one[side] ?? [])),
    };
    const own = stages.filter(({ stage }) => stage.repeats === undefined);
    return [
      ...ownPairs(own, side).map((pair) => compareSweeps(pair, basis)),
      ...otherPairs(model, own, sweeps.compared, side).map((pair) => compareWithOther(model, pair, basis, bases[side])),
      ...(model.firstHead ? pairsOfOthers(model, sweeps.compared, side).map((pair) => compareSweeps(pair, basis)) : []),
    ];
  });
}

const NAMED_LIFTS: Model["report"]["lifts"] = [{ kind: "low" }, { kind: "mid" }, { kind: "high" }, { kind: "cam" }];

/** Comparison with another head: also at the named lifts, and with what that head would do on this job's engine. */
function compareWithOther(model: Model, pair: SweepPair, basis: ComparisonBasis, { ideal }: SideBasis): Comparison {
  const { from, to, side } = pair;
  const named = reportLifts({ ...model, report: { ...model.report, lifts: NAMED_LIFTS } }, side, [from, to]);
  const comparison = compareSweeps(pair, { ...basis, lifts: [...basis.lifts, ...named] });
  const compared = named.flatMap(({ at, lift }) => {
    const change = comparison.changes.find((one) => lift !== undefined && sameLift(one.lift_m, lift));
    return change === undefined || !isNamed(at) ? [] : [{ at, lift_m: change.lift_m }];
  });
  const sweep = comparedSweeps(pair)?.[0] ?? from;
  const engine =
    side === "intake" ? engineFigures(model, from.source.stage.ports.intake, sweep, ideal.intake) : undefined;
  return { ...comparison, compared, ...(engine === undefined ? {} : { engine }) };
}

type NamedLift = NonNullable<Comparison["compared"]>[number]["at"];
const isNamed = (at: ReportLift["at"]): at is NamedLift => typeof at === "string" && at !== "peak";

/** The job's own pairs: stage to stage, and the whole way where there are more than two. */
function ownPairs(own: readonly FlowedStage[], side: Side): SweepPair[] {
  const steps = own.slice(1).map((to, k) => sweepPair(own[k]!, to, side));
  return own.length > 2 ? [...steps, sweepPair(own[0]!, own[own.length - 1]!, side)] : steps;
}

/** Each other head with the last stage. */
function otherPairs(
  model: Model,
  own: readonly FlowedStage[],
  compared: readonly FlowedStage[],
  side: Side,
): SweepPair[] {
  const last = own[own.length - 1];
  if (last === undefined) return [];
  return stagesFlowedOn(compared, side).map((head) =>
    sweepPair(head, last, side, model.compared[compared.indexOf(head)]!.label),
  );
}

/** Of a job that sets heads side by side: the heads after the first, each with each one before it. */
function pairsOfOthers(model: Model, compared: readonly FlowedStage[], side: Side): SweepPair[] {
  const flowed = stagesFlowedOn(compared, side);
  const labelOf = (head: FlowedStage) => model.compared[compared.indexOf(head)]!.label;
  return flowed.flatMap((to, k) =>
    flowed.slice(k + 1).map((from) => ({ ...sweepPair(from, to, side, labelOf(from)), toLabel: labelOf(to) })),
  );
}

/** Two stages flowed on a side; `label` names the first where it is another head. */
function sweepPair(from: FlowedStage, to: FlowedStage, side: Side, label?: string): SweepPair {
  return {
    from: from[side]!,
    to: to[side]!,
    side,
    same: label === undefined,
    fromLabel: label,
    swapped: columnsSwapped(from, to),
  };
}
