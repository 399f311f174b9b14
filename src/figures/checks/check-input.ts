import type { Span } from "../../diagnostics/diagnostic.ts";
import { deliveredStage } from "../../model/delivered-stage.ts";
import {
  type DisplayUnits,
  type FlowSet,
  type Model,
  type Port,
  SIDES,
  type Side,
  type Stage,
} from "../../model/model.ts";
import { sameLift } from "../../units/same-lift.ts";
import { show } from "../../units/show.ts";
import type { Kind } from "../../units/table.ts";
import type { Figures, ReadingFigures, StageFigures } from "../figures.ts";
import { valveDiameter } from "../geometry/port-geometry.ts";
import { readingFigures } from "../side/reading-figures.ts";
import { measuredPorts } from "../sweep/full-ports.ts";
import type { Point } from "../sweep/point.ts";
import type { AllSweeps } from "../sweep/read-all-sweeps.ts";
import { narrowSweep, type Sweep } from "../sweep/sweep.ts";
import { type Deviation, findDeviations } from "./deviations.ts";

/** Formatters of numbers in the sheet's units. */
export type Formatters = {
  readonly lift: (value: number) => string;
  readonly length: (value: number) => string;
  readonly flow: (value: number) => string;
  readonly volume: (value: number) => string;
  readonly area: (value: number) => string;
  readonly percent: (value: number) => string;
  readonly ratio: (value: number) => string;
};

/** One set of a stage on one side, with the data available to a rule. */
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
  /** Readings off the trend of their neighbours. */
  readonly deviations: readonly Deviation[];
  readonly readings: readonly ReadingFigures[];
  /** Readings of the ports that are not in the curve. */
  readonly outside: readonly ReadingFigures[];
  readonly format: Formatters;
};

/** One stage with its figures. */
type StageCheckInput = {
  readonly model: Model;
  readonly stage: Stage;
  readonly figures: StageFigures;
  /** The stage before that measures no other again. */
  readonly before?: Stage;
  /** Whether the head goes out as this stage. */
  readonly delivered: boolean;
  /** Its place in the list of stages. */
  readonly index: number;
  readonly source: Source;
  readonly format: Formatters;
};

/** The whole job. */
type JobCheckInput = {
  readonly model: Model;
  readonly figures: Figures;
  readonly sweeps: AllSweeps;
  readonly sides: readonly SideCheckInput[];
  readonly format: Formatters;
};

export type SideRule = (input: SideCheckInput) => readonly Finding[];
export type StageRule = (input: StageCheckInput) => readonly Finding[];
export type JobRule = (input: JobCheckInput) => readonly Finding[];

/** Formatters for the sheet's units. @source NIST SP 811 (2008), chapter 7 */
export const formattersFor = (units: DisplayUnits): Formatters => ({
  lift: (value) => show(value, "length", units.length),
  length: (value) => show(value, "length", units.length),
  flow: (value) => show(value, "flow", units.flow),
  volume: (value) => show(value, "volume", units.volume),
  area: (value) => show(value, "area", units.area),
  percent: (value) => show(value, "ratio", "%", 1),
  ratio: (value) => value.toFixed(2),
});

/** Every set and side of every stage that was flowed. */
export const sideCheckInputs = (
  model: Model,
  figures: Figures,
  { stages }: AllSweeps,
  format: Formatters,
): SideCheckInput[] =>
  stages.flatMap(({ stage, sets }, k) =>
    sets.flatMap((sweeps, index) =>
      SIDES.flatMap((side): SideCheckInput[] => {
        const own = figures.stages[k]!;
        const readings = (index === 0 ? own : own.sets[index - 1]!)[side]?.readings;
        if (readings === undefined || readings.length === 0) return [];
        const port = stage.ports[side];
        const diameter = port === undefined ? undefined : valveDiameter(port);
        const sweep = sweeps[side];
        return [
          {
            model,
            stage,
            side,
            set: sweep.source.set,
            leading: index === 0,
            outside: outsideReadings(sweep, port, figures.reference.ideal_flow_per_area_m_s[side]),
            sweep,
            deviations: findDeviations({ model, sweep, ...(diameter === undefined ? {} : { diameter }) }),
            readings,
            format,
            ...(port === undefined ? {} : { port, diameter }),
          },
        ];
      }),
    ),
  );

function outsideReadings(sweep: Sweep, port: Port | undefined, ideal: number): ReadingFigures[] {
  const others = measuredPorts(sweep.points).filter((one) => !sweep.ports.includes(one));
  return others.flatMap((one) =>
    narrowSweep(sweep, [one]).shown.map((reading) => readingFigures(reading, port, ideal)),
  );
}

/** Every stage with its figures and the one before. */
export const stageCheckInputs = (
  model: Model,
  figures: Figures,
  format: Formatters,
  source: Source = NO_SOURCE,
): StageCheckInput[] => {
  const delivered = deliveredStage(model.stages);
  return model.stages.map((stage, k) => {
    const before = deliveredStage(model.stages.slice(0, k));
    return {
      model,
      stage,
      figures: figures.stages[k]!,
      delivered: stage === delivered,
      index: k,
      source,
      format,
      ...(before === undefined ? {} : { before }),
    };
  });
};

/** What a finding is about: a reading of a side at a lift, a side, or a stage. */
export type Subject = {
  readonly stage: string;
  readonly side?: Side;
  readonly set?: FlowSet;
  readonly lift?: number;
};

/** The largest reading at a lift: of several the one that is over a limit, if any is. */
const readingAt = ({ sweep }: SideCheckInput, lift: number): Point | undefined => {
  const here = sweep.points.filter((point) => sameLift(point.lift, lift));
  return here.reduce<Point | undefined>((top, point) => (top && top.flow >= point.flow ? top : point), undefined);
};

/** Place and subject of a finding about the reading at a lift. */
export const readingPlace = (
  input: SideCheckInput,
  lift: number,
  point = readingAt(input, lift),
): Pick<Finding, "at" | "subject"> => {
  const at = point?.reading.at;
  const { stage, side, set } = input;
  return { subject: { stage: stage.name, side, set, lift }, ...(at === undefined ? {} : { at }) };
};

/** Describes a reading in messages: stage, side, lift and flow, as they were typed; `flow` is for one without its text. */
export const readingName = (
  input: SideCheckInput,
  lift: number,
  flow: number,
  point = readingAt(input, lift),
): string => {
  const { format } = input;
  const typed = point?.reading.typed;
  return `${sideName(input, point)} at ${typed?.lift ?? format.lift(lift)}: ${typed?.flow ?? format.flow(flow)}`;
};

/** Stage, set and side, and the cylinder where several were flowed. */
const sideName = ({ stage, side, set, leading, sweep }: SideCheckInput, point?: Point): string =>
  [
    stage.name,
    ...(leading ? [] : [set.name]),
    side,
    ...(point && measuredPorts(sweep.points).length > 1 ? [`cylinder ${point.port}`] : []),
  ].join(", ");

/** Place and subject of a finding: where the leading set of a flowed stage has a reading of a side at a lift. */
export const leadingSetPlace = (stage: Stage, side: Side, lift: number): Pick<Finding, "at" | "subject"> => {
  const readings = stage.sets[0]!.runs.flatMap((run) => run.readings[side]);
  const at = readings.find((reading) => sameLift(reading.lift, lift))?.at;
  return { subject: { stage: stage.name, side, lift }, ...(at === undefined ? {} : { at }) };
};

/** Path of a key in the job file. */
export type KeyPath = readonly (string | number)[];

/** The files from which the model was made: where a key stands, and what was typed there, with its unit. */
export type Source = {
  readonly placeOf: (path: KeyPath) => Span | undefined;
  readonly textOf: (path: KeyPath, kind: Kind) => string | undefined;
};
export const NO_SOURCE: Source = { placeOf: () => undefined, textOf: () => undefined };

/** The `at` of a finding: where the first of these keys stands that is stated. */
export const keyPlace = (source: Source, ...paths: readonly KeyPath[]): Pick<Finding, "at"> => {
  for (const path of paths) {
    const at = source.placeOf(path);
    if (at) return { at };
  }
  return {};
};

/** Result of a rule: the fact with its reading, and the likely cause. */
export type Finding = {
  readonly code: `figures/${string}`;
  /** Names the reading; lower case, no full stop. */
  readonly message: string;
  /** A likely cause, in workshop terms. */
  readonly hint: string;
  readonly note?: string;
  readonly at?: Span;
  readonly subject?: Subject;
  /** What several findings of one code have in common: only the first of them is reported. */
  readonly cause?: string;
  /** The hint names what was probably meant. */
  readonly proposes?: true;
  /** Set by a rule that rejects the job; otherwise a warning. */
  readonly severity?: "error";
};
