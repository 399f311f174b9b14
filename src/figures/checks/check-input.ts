import {
  type DisplayUnits,
  type FlowSet,
  type Model,
  type Port,
  SIDES,
  type Side,
  type Stage,
} from "../../model/model.ts";
import { show } from "../../units/show.ts";
import type { Figures, ReadingFigures, StageFigures } from "../figures.ts";
import { valveDiameter } from "../geometry/port-geometry.ts";
import { sameLift } from "../math/lifts.ts";
import type { AllSweeps } from "../sweep/read-all-sweeps.ts";
import type { Sweep } from "../sweep/sweep.ts";
import type { Finding } from "./finding.ts";

/** A number in the units of the sheet. */
export type Formatters = {
  readonly lift: (value: number) => string;
  readonly length: (value: number) => string;
  readonly flow: (value: number) => string;
  readonly volume: (value: number) => string;
  readonly area: (value: number) => string;
  readonly percent: (value: number) => string;
  readonly ratio: (value: number) => string;
};

/** One set of a stage on one side, with everything a rule may look at. */
export type SideCheckInput = {
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
  readonly say: Formatters;
};

/** One stage with its figures. */
export type StageCheckInput = {
  readonly model: Model;
  readonly stage: Stage;
  readonly figures: StageFigures;
  /** The stage before that measures no other again. */
  readonly before?: Stage;
  /** Whether the head goes out as this stage. */
  readonly delivered: boolean;
  readonly say: Formatters;
};

/** The whole job. */
export type JobCheckInput = {
  readonly model: Model;
  readonly figures: Figures;
  readonly sweeps: AllSweeps;
  readonly sides: readonly SideCheckInput[];
  readonly say: Formatters;
};

export type SideRule = (scene: SideCheckInput) => readonly Finding[];
export type StageRule = (scene: StageCheckInput) => readonly Finding[];
export type JobRule = (scene: JobCheckInput) => readonly Finding[];

/** How numbers are said, in the units of the sheet. @source NIST SP 811 (2008), chapter 7 */
export const formattersFor = (units: DisplayUnits): Formatters => ({
  lift: (value) => show(value, "length", units.length),
  length: (value) => show(value, "length", units.length),
  flow: (value) => show(value, "flow", units.flow),
  volume: (value) => show(value, "volume", units.volume),
  area: (value) => show(value, "area", units.area),
  percent: (value) => show(value, "ratio", "%", 1),
  ratio: (value) => value.toFixed(2),
});

/** Every set and side of every stage that was flowed. @source the model's own order */
export const sideScenes = (model: Model, figures: Figures, { stages }: AllSweeps, say: Formatters): SideCheckInput[] =>
  stages.flatMap(({ stage, sets }, k) =>
    sets.flatMap((sweeps, index) =>
      SIDES.flatMap((side): SideCheckInput[] => {
        const own = figures.stages[k]!;
        const readings = (index === 0 ? own : own.sets[index - 1]!)[side]?.readings;
        if (readings === undefined || readings.length === 0) return [];
        const port = stage.ports[side];
        const sweep = sweeps[side];
        return [
          {
            model,
            stage,
            side,
            set: sweep.source.set,
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

/** Every stage with its figures and the one before. @source the model's own order */
export const stageScenes = (model: Model, figures: Figures, say: Formatters): StageCheckInput[] => {
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
export const placeOf = ({ sweep }: SideCheckInput, lift: number): Pick<Finding, "at"> => {
  const at = sweep.points.find((point) => sameLift(point.lift, lift))?.reading.at;
  return at === undefined ? {} : { at };
};

/** A reading as a porter would point at it: stage, side, lift and flow. @source common practice */
export const nameOf = ({ stage, side, say, set, leading }: SideCheckInput, lift: number, flow: number): string =>
  `${stage.name}, ${leading ? "" : `${set.name}, `}${side} at ${say.lift(lift)}: ${say.flow(flow)}`;

/** Where a flowed stage's leading set has a reading of a side at a lift, to spread into a finding. @source the readings' own places */
export const typedAt = (stage: Stage, side: Side, lift: number): Pick<Finding, "at"> => {
  const readings = stage.sets[0]!.runs.flatMap((run) => run.readings[side]);
  const at = readings.find((reading) => sameLift(reading.lift, lift))?.at;
  return at === undefined ? {} : { at };
};
