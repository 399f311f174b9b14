import {
  type DisplayUnits,
  type FlowSet,
  type Model,
  type Port,
  SIDES,
  type Side,
  type Stage,
} from "../../model/model.ts";
import { metres } from "../../units/quantity.ts";
import { show } from "../../units/show.ts";
import type { Figures, ReadingFigures, StageFigures } from "../figures.ts";
import { sameLift } from "../lifts.ts";
import { portCurtainArea, valveDiameter } from "../port-geometry.ts";
import { type CurtainFigures, curtainFigures, type IdealFlow } from "../reading-figures.ts";
import { readSweep, type Sweep } from "../sweep.ts";
import type { Finding, Refusal } from "./finding.ts";

/** A number in the units of the sheet. */
export type Say = {
  readonly lift: (value: number) => string;
  readonly length: (value: number) => string;
  readonly flow: (value: number) => string;
  readonly volume: (value: number) => string;
  readonly area: (value: number) => string;
  readonly percent: (value: number) => string;
  readonly ratio: (value: number) => string;
};

/** One set of a stage on one side, with everything a rule may look at. */
export type SideScene = {
  readonly model: Model;
  readonly stage: Stage;
  readonly side: Side;
  readonly set: FlowSet;
  /** Whether this set leads. */
  readonly leading: boolean;
  readonly port?: Port;
  /** Valve diameter [m]. */
  readonly diameter?: number;
  readonly sweep: Sweep;
  readonly readings: readonly ReadingFigures[];
  readonly say: Say;
};

/** One stage with its figures. */
export type StageScene = {
  readonly model: Model;
  readonly stage: Stage;
  readonly figures: StageFigures;
  /** The stage before that measures no other again. */
  readonly before?: Stage;
  /** Whether the head goes out as this stage. */
  readonly delivered: boolean;
  readonly say: Say;
};

/** The whole job. */
export type JobScene = {
  readonly model: Model;
  readonly figures: Figures;
  readonly sides: readonly SideScene[];
  readonly say: Say;
};

/** As much of a side as tells whether its readings can be true. */
export type BareScene = Pick<SideScene, "stage" | "side" | "set" | "leading" | "sweep" | "say"> & {
  readonly readings: readonly CurtainFigures[];
};
export type BareJob = Pick<JobScene, "model" | "say">;

export type SideRule = (scene: SideScene) => readonly Finding[];
export type StageRule = (scene: StageScene) => readonly Finding[];
export type JobRule = (scene: JobScene) => readonly Finding[];
/** Rules that may refuse a job look at readings alone, so that a list of many jobs can ask them and no others. */
export type RefusingSideRule = (scene: BareScene) => readonly Refusal[];
export type RefusingJobRule = (scene: BareJob) => readonly Refusal[];

/** How numbers are said, in the units of the sheet. @source NIST SP 811 (2008), chapter 7 */
export const sayIn = (units: DisplayUnits): Say => ({
  lift: (value) => show(value, "length", units.length),
  length: (value) => show(value, "length", units.length),
  flow: (value) => show(value, "flow", units.flow),
  volume: (value) => show(value, "volume", units.volume),
  area: (value) => show(value, "area", units.area),
  percent: (value) => show(value, "ratio", "%", 1),
  ratio: (value) => value.toFixed(2),
});

/** Every set and side of every stage that was flowed. @source the model's own order */
export const sideScenes = (model: Model, figures: Figures, say: Say): SideScene[] =>
  model.stages.flatMap((stage, k) =>
    stage.sets.flatMap((set, index) =>
      SIDES.flatMap((side): SideScene[] => {
        const own = figures.stages[k]!;
        const readings = (index === 0 ? own : own.sets[index - 1]!)[side]?.readings;
        if (readings === undefined || readings.length === 0) return [];
        const port = stage.ports[side];
        const sweep = readSweep({ head: "", stage, set, side }, model.reference);
        return [
          {
            model,
            stage,
            side,
            set,
            leading: index === 0,
            sweep,
            readings,
            say,
            ...(port === undefined ? {} : { port, diameter: valveDiameter(port) }),
          },
        ];
      }),
    ),
  );

/** Below any limit of a coefficient on the curtain. */
const PASSED_EASILY = 0.8;
const METRE = metres(1);

/** The same as far as it tells whether readings can be true, without figures: readings near what their curtain passes. @source the model's own order */
export const bareScenes = (model: Model, ideal: IdealFlow, say: Say): BareScene[] => {
  const scenes: BareScene[] = [];
  for (const stage of model.stages)
    for (const set of stage.sets)
      for (const side of SIDES) {
        const port = stage.ports[side];
        const curtain = port && portCurtainArea(port, METRE);
        if (curtain === undefined) continue;
        const sweep = readSweep({ head: "", stage, set, side }, model.reference);
        const easily = PASSED_EASILY * curtain * ideal[side];
        const near = sweep.shown.filter(({ lift, flow }) => !(flow < easily * lift));
        if (near.length === 0) continue;
        const readings = near.map((reading) => curtainFigures(reading, port, ideal[side]));
        scenes.push({ stage, side, set, leading: set === stage.sets[0], sweep, readings, say });
      }
  return scenes;
};

/** Every stage with its figures and the one before. @source the model's own order */
export const stageScenes = (model: Model, figures: Figures, say: Say): StageScene[] => {
  const delivered = model.stages.findLast((stage) => stage.repeats === undefined);
  return model.stages.map((stage, k) => {
    const before = model.stages.slice(0, k).findLast((one) => one.repeats === undefined);
    return {
      model,
      stage,
      figures: figures.stages[k]!,
      delivered: stage === delivered,
      say,
      ...(before === undefined ? {} : { before }),
    };
  });
};

/** Where the reading at a lift was typed, to spread into a finding. @source the readings' own places */
export const placeOf = ({ sweep }: BareScene, lift: number): Pick<Finding, "at"> => {
  const at = sweep.points.find((point) => sameLift(point.lift, lift))?.reading.at;
  return at === undefined ? {} : { at };
};

/** A reading as a porter would point at it: stage, side, lift and flow. @source common practice */
export const nameOf = ({ stage, side, say, set, leading }: BareScene, lift: number, flow: number): string =>
  `${stage.name}, ${leading ? "" : `${set.name}, `}${side} at ${say.lift(lift)}: ${say.flow(flow)}`;

/** Where a flowed stage's leading set has a reading of a side at a lift, to spread into a finding. @source the readings' own places */
export const typedAt = (stage: Stage, side: Side, lift: number): Pick<Finding, "at"> => {
  const readings = stage.sets[0]!.runs.flatMap((run) => run.readings[side]);
  const at = readings.find((reading) => sameLift(reading.lift, lift))?.at;
  return at === undefined ? {} : { at };
};
