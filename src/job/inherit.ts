import type { CubicMetres, Metres, Radians } from "../units/quantity.ts";
import { isMap } from "../util/is-map.ts";
import type { Job, JobPort, JobStage } from "./schema/job.ts";
import { NOT_MEASURED } from "./schema/quantities.ts";

export type PortSide = "intake" | "exhaust";

/** A typed value after inheritance, without `not measured`. */
type Resolved<T> = T extends typeof NOT_MEASURED
  ? never
  : T extends string | number
    ? T
    : { readonly [K in keyof T]: Resolved<T[K]> };
/** The map among the forms in which a value may be typed. */
type ResolvedMap<T> = Exclude<Resolved<NonNullable<T>>, number | readonly unknown[]>;

/** Values stated so far for a valve, including the `stem` stated under its port. */
export type ValveFacts = ResolvedMap<JobPort["valve"]>;

/** The dimensions of a port after inheritance, each in one form. Keys as in the job file. */
export type PortFacts = Omit<Resolved<JobPort>, "valve" | "stem" | "seat" | "pinch"> & {
  /** One valve for all, or a list of unlike ones. */
  readonly valve?: ValveFacts | readonly ValveFacts[];
  readonly seat?: Omit<ResolvedMap<JobPort["seat"]>, "bottom"> & { readonly bottom?: readonly BottomCut[] };
  readonly pinch?: ResolvedMap<JobPort["pinch"]>;
};

/** A cut under the seat as typed: its angle, a map, or the word for a radiused throat. */
type BottomCut = Radians | "radius" | { readonly angle?: Radians; readonly width?: Metres; readonly radius?: Metres };

/** A stage's dimensions after inheritance. */
export type StageFacts = {
  readonly intake?: PortFacts;
  readonly exhaust?: PortFacts;
  readonly chamber?: CubicMetres;
  readonly chambers?: Readonly<Record<string, CubicMetres>>;
  readonly deck?: ResolvedMap<JobStage["deck"]>;
  readonly layout?: JobStage["layout"];
  /** Index of the stage whose dimensions these take over where they state none. */
  readonly from?: number;
  /** Dimensions taken over, by key of the job file. */
  readonly inherited: {
    readonly intake: readonly string[];
    readonly exhaust: readonly string[];
    readonly chambers: boolean;
  };
};

const DIMENSIONS = [
  "valve",
  "seat",
  "throat",
  "pinch",
  "sections",
  "opening",
  "gasket_window",
  "port_volume",
  "port_length",
] as const;

type Stages = NonNullable<Job["stages"]>;

/** The dimensions of every stage: its own over those of the stage above, or of the one it repeats. */
export function inheritStages(stages: Stages): readonly StageFacts[] {
  const done: StageFacts[] = [];
  stages.forEach((stage, index) => {
    const repeated = stage.repeats === undefined ? -1 : stages.findIndex((other) => other.name === stage.repeats);
    const from = repeated >= 0 && repeated < index ? repeated : index - 1;
    done.push(inherit(stage, done[from], from < 0 ? undefined : from));
  });
  return done;
}

function inherit(stage: JobStage, above: StageFacts | undefined, from: number | undefined): StageFacts {
  const own = { intake: normalizePort(stage.intake), exhaust: normalizePort(stage.exhaust) };
  // `added` belongs to one stage only and is not inherited.
  const port = (side: PortSide) =>
    mergeFacts(above?.[side] && { ...above[side], added: undefined }, own[side]) as PortFacts | undefined;
  const volumes = chamberFacts(stage, above);
  const intake = port("intake");
  const exhaust = port("exhaust");
  return {
    intake,
    exhaust,
    ...volumes,
    deck: mergeFacts(above?.deck, stage.deck) as StageFacts["deck"],
    layout: mergeFacts(above?.layout, stage.layout) as StageFacts["layout"],
    from,
    inherited: {
      intake: inheritedKeys(own.intake, intake),
      exhaust: inheritedKeys(own.exhaust, exhaust),
      chambers: !stage.chamber && !stage.chambers && (volumes.chamber ?? volumes.chambers) !== undefined,
    },
  };
}

/** One chamber volume or one for each: whichever is stated here replaces both from above. */
function chamberFacts(stage: JobStage, above: StageFacts | undefined): Pick<StageFacts, "chamber" | "chambers"> {
  if (stage.chamber === undefined && stage.chambers === undefined)
    return { chamber: above?.chamber, chambers: above?.chambers };
  const chamber = stage.chamber === NOT_MEASURED ? undefined : stage.chamber;
  return { chamber, chambers: stage.chambers && { ...stage.chambers } };
}

type Facts = { readonly [key: string]: unknown };

/** Normalises a port as typed: the valve becomes a map or a list of maps with the port's `stem` in it, the pinch a map. */
function normalizePort(port: JobPort | undefined): Facts | undefined {
  if (!port) return undefined;
  const { valve, stem, pinch, seat } = port;
  const withStem = (facts: Facts): Facts => (stem === undefined ? facts : { stem, ...facts });
  const facts: Record<string, unknown> = { ...port };
  if (stem !== undefined) facts.stem = undefined;
  if (Array.isArray(valve)) facts.valve = valve.map((one) => withStem(valveMap(one)));
  else if (valve !== NOT_MEASURED && (valve !== undefined || stem !== undefined))
    facts.valve = withStem(valve === undefined ? {} : valveMap(valve));
  if (typeof pinch === "number") facts.pinch = { area: pinch };
  if (typeof seat === "object" && isOneCut(seat.bottom)) facts.seat = { ...seat, bottom: [seat.bottom] };
  return facts;
}

const isOneCut = (bottom: unknown) => bottom !== undefined && bottom !== NOT_MEASURED && !Array.isArray(bottom);

const valveMap = (valve: unknown): Facts => (typeof valve === "number" ? { head: valve } : (valve as Facts));

/** Merges key by key: maps merge, lists and single values replace, `not measured` removes. */
function mergeFacts(above: unknown, own: unknown): unknown {
  if (own === undefined) return above;
  if (own === NOT_MEASURED) return undefined;
  if (!isMap(own)) return Array.isArray(own) ? own.map((one) => mergeFacts(undefined, one)) : own;
  const base = isMap(above) ? dropOtherForm(above, own) : {};
  const result: Record<string, unknown> = { ...base };
  for (const key in own) {
    if (own[key] === undefined) continue;
    const merged = mergeFacts(base[key], own[key]);
    if (merged !== undefined) result[key] = merged;
    else if (key in result) delete result[key];
  }
  return !isEmpty(result) || isEmpty(own) ? result : undefined;
}

function isEmpty(map: Facts): boolean {
  for (const _ in map) return false;
  return true;
}

/** Drops the other form of what `own` states: a pinch area replaces width and height, one volume replaces several. */
function dropOtherForm(above: Facts, own: Facts): Facts {
  if (own.port_volumes !== undefined || own.port_volume !== undefined) {
    const { port_volume, port_volumes, ...others } = above;
    return own.port_volume === undefined ? { ...others, port_volumes } : others;
  }
  const toArea = above.area === undefined && own.area !== undefined;
  const fromArea = above.area !== undefined && (own.width !== undefined || own.height !== undefined);
  if (!toArea && !fromArea) return above;
  const { area, width, height, corner, ...rest } = above;
  return rest;
}

/** The keys of the dimensions that a port has although its stage does not state them. */
function inheritedKeys(own: Facts | undefined, port: PortFacts | undefined): string[] {
  if (!port) return [];
  return DIMENSIONS.filter((key) => {
    const here = key === "port_volume" ? (port.port_volume ?? port.port_volumes) : port[key];
    if (here === undefined) return false;
    if (key === "valve") return !statesHead(own?.valve);
    if (key === "pinch") return !statesSize(own?.pinch);
    if (key === "port_volume") return own?.port_volume === undefined && own?.port_volumes === undefined;
    return own?.[key] === undefined;
  });
}

const statesHead = (valve: unknown) => Array.isArray(valve) || (isMap(valve) && valve.head !== undefined);
const statesSize = (pinch: unknown) =>
  isMap(pinch) && (pinch.width !== undefined || pinch.height !== undefined || pinch.area !== undefined);

/** The unlike valves of a port, or its one valve repeated for each that the port feeds. */
export function valvesOf(port: PortFacts, otherwise: number): readonly ValveFacts[] {
  const { valve } = port;
  if (valve === undefined) return [];
  if (Array.isArray(valve)) return valve as readonly ValveFacts[];
  return new Array<ValveFacts>(port.valves ?? otherwise).fill(valve as ValveFacts);
}
