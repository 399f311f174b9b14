import { type Model, type Port, SIDES, type Side, type Stage } from "../../model/model.ts";
import { isClear } from "../../model/verdict.ts";
import { columnsSwapped } from "../checks/columns-swapped.ts";
import { type FlowedStage, readHeadSweeps } from "../sweep/read-all-sweeps.ts";
import { repeatFloor } from "../sweep/repeat-floor.ts";
import { compareSweeps } from "./comparison.ts";

/**
 * The model with those dimensions marked stale that were inherited over a changed flow: one whose mean change since the stage
 * where they were measured is clear.
 *
 *     see `compareSweeps`
 *
 * @param model  the model
 * @returns      the model; the same object where nothing changes
 * @source       common practice
 * @example      markStale({ stages: [], compared: [], samples: [] }) // { stages: [], compared: [], samples: [] }
 */
export function markStale(model: Model): Model {
  const heads = [...model.compared, ...model.samples].map(({ stage }) => [stage]);
  if (![model.stages, ...heads].flat().some((stage) => SIDES.some((side) => agingKeys(stage, side).length > 0)))
    return model;
  const markOne = (one: { readonly stage: Stage }, k: number) => ({
    stage: markStages(`${k}`, [one.stage], model)[0]!,
  });
  return {
    ...model,
    stages: markStages("", model.stages, model),
    compared: model.compared.map((one, k) => ({ ...one, ...markOne(one, k) })),
    samples: model.samples.map((one, k) => ({ ...one, ...markOne(one, k) })),
  };
}

const agingKeys = (stage: Stage, side: Side) => stage.ports[side]?.staleIfChanged ?? [];

/** Stages of one head; of another head only one is given, and the stages since which its sizes are inherited are read with it. */
function markStages(head: string, stages: readonly Stage[], model: Model): Stage[] {
  const before = stages.flatMap((stage) => SIDES.flatMap((side) => agingKeys(stage, side).map(({ since }) => since)));
  const flowed = readHeadSweeps(head, [...new Set([...before, ...stages])], model.reference);
  return stages.map((stage) => {
    const [intake, exhaust] = SIDES.map((side) => markPort(stage, side, flowed, model));
    return { ...stage, ports: { ...(intake && { intake }), ...(exhaust && { exhaust }) } };
  });
}

function markPort(stage: Stage, side: Side, flowed: readonly FlowedStage[], model: Model): Port | undefined {
  const port = stage.ports[side];
  const stale = agingKeys(stage, side).flatMap(({ keys, since }) =>
    hasFlowChanged(since, stage, side, flowed, model) ? keys : [],
  );
  return port && stale.length > 0 ? { ...port, stale: [...port.stale, ...stale] } : port;
}

function hasFlowChanged(
  since: Stage,
  stage: Stage,
  side: Side,
  flowed: readonly FlowedStage[],
  { units, engine }: Model,
): boolean {
  const [before, after] = [since, stage].map((wanted) => flowed.find((one) => one.stage === wanted));
  const [from, to] = [before?.[side], after?.[side]];
  if (!before || !after || !from || !to) return false;
  const { mean_change_verdict: verdict } = compareSweeps(
    { from, to, side, same: true, swapped: columnsSwapped(before, after) },
    {
      units,
      lifts: [],
      netLift: engine?.cams[side]?.netLift,
      floor: repeatFloor(flowed.flatMap((one) => one[side] ?? [])),
    },
  );
  return isClear(verdict);
}
