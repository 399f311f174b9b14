import { IMPERIAL } from "../../src/model/display-units.ts";
import type { Bench, Engine, FlowSet, Model, Port, Reading, Report, Run, Side, Stage } from "../../src/model/model.ts";
import {
  cubicMetres,
  cubicMetresPerSecond,
  kelvin,
  metres,
  pascals,
  radians,
  ratio,
  squareMetres,
} from "../../src/units/quantity.ts";
import { show } from "../../src/units/show.ts";

export const INCH = 0.0254;
export const CFM = 0.0004719474432;
export const INCH_OF_WATER = 249.08891;
export const inches = (value: number) => metres(value * INCH);
export const millimetres = (value: number) => metres(value / 1000);
export const cfm = (value: number) => cubicMetresPerSecond(value * CFM);
export const inchesOfWater = (value: number) => pascals(value * INCH_OF_WATER);
export const degrees = (value: number) => radians((value * Math.PI) / 180);

/** A cell as a porter types it: 118.5, "118?" doubtful, "~118" struck out, "118!" noisy, "-" missing. */
export type Cell = number | string | undefined;
/** Lift in the sketch's unit, intake and exhaust in cfm, and the test pressure of that row in inH2O. */
export type Row = readonly [lift: number, intake?: Cell, exhaust?: Cell, pressure?: number];
/** Rows of numbers, one lift after the other. */
export const rowsOf = (rows: string): Row[] =>
  rows.split(", ").map((row) => row.split(" ").map(Number) as unknown as Row);

export type RunSketch = {
  readonly cylinder?: number;
  readonly hand?: string;
  readonly mount?: number;
  readonly bench?: Partial<Bench>;
  readonly rows: readonly Row[];
};
export type SetSketch = {
  readonly name?: string;
  readonly bench?: Partial<Bench>;
  readonly runs: readonly RunSketch[];
};
export type StageSketch = {
  readonly name?: string;
  readonly date?: string;
  readonly repeats?: string;
  readonly intake?: Partial<Port>;
  readonly exhaust?: Partial<Port>;
  /** cc */
  readonly chambers?: readonly number[];
  readonly deckCut?: number;
  readonly bench?: Partial<Bench>;
  /** One sweep of cylinder 1. */
  readonly flow?: readonly Row[];
  readonly runs?: readonly RunSketch[];
  readonly sets?: readonly SetSketch[];
};
export type Sketch = {
  readonly kind?: "job" | "product";
  /** Unit of the lifts in rows, and of lengths as displayed. */
  readonly lifts?: "in" | "mm";
  readonly testPressure?: number;
  readonly bench?: Partial<Bench>;
  readonly report?: Partial<Report>;
  readonly engine?: Partial<Engine>;
  readonly stages?: readonly StageSketch[];
  readonly compared?: readonly { readonly label: string; readonly stage: StageSketch }[];
  readonly samples?: readonly StageSketch[];
  readonly text?: Partial<Model["text"]>;
};

/** A complete valid model from a few numbers. Reported at 28 inH2O unless said. */
export function modelOf(sketch: Sketch): Model {
  const kind = sketch.kind ?? "job";
  const stage = (one: StageSketch, k: number) => stageOf(sketch, one, k);
  return {
    identity: { kind, number: "2026-014", title: "Harbour wedge", issued: "2026-03-18", revision: 1, draft: false },
    shop: { address: [], cautions: [] },
    units: { ...IMPERIAL, length: sketch.lifts ?? "in", area: sketch.lifts === "mm" ? "mm2" : "in2" },
    reference: {
      testPressure: inchesOfWater(sketch.testPressure ?? 28),
      air: { temperature: kelvin(293.15), pressure: pascals(101325), relativeHumidity: ratio(0) },
    },
    report: {
      lifts: [{ kind: "low" }, { kind: "mid" }, { kind: "high" }, { kind: "cam" }, { kind: "peak" }],
      pinchLimit: { kind: "mach", value: ratio(0.55) },
      pinchLimitIsDefault: true,
      holdBack: [],
      embed: "readings",
      strict: false,
      ...sketch.report,
    },
    ...(sketch.engine === undefined ? {} : { engine: { cams: {}, ...sketch.engine } }),
    stages: (sketch.stages ?? []).map(stage),
    compared: (sketch.compared ?? []).map((other, k) => ({ label: other.label, stage: stage(other.stage, k) })),
    samples: (sketch.samples ?? []).map((one, k) => ({ stage: stage(one, k) })),
    text: {
      heads: [],
      head: { name: "Harbour wedge" },
      work: [],
      notDone: [],
      checks: [],
      alsoMeasured: [],
      parts: [],
      assembly: [],
      photos: [],
      cautions: [],
      valveTrainLimits: {},
      agreed: [],
      ...sketch.text,
    },
  };
}

/** A port of one valve, 44 mm over a 37.5 mm throat, changed by whatever is given. */
export function portOf(changes: Partial<Port> = {}): Port {
  return {
    valves: [{ head: millimetres(44), stem: millimetres(8) }],
    ports: 1,
    feeds: 1,
    seat: { angle: degrees(45), width: millimetres(1.5), bottom: [] },
    throat: millimetres(37.5),
    sections: [],
    portVolumes: [],
    notRemeasured: [],
    stale: [],
    ...changes,
  };
}

/** A port with the dimensions that a sheet names most, in millimetres, mm² and cc. */
export function describedPort(size: {
  valve: number;
  valves?: number;
  stem: number;
  throat: number;
  seatWidth: number;
  seatAngle?: number;
  pinch?: number;
  volume?: number;
  length?: number;
}): Port {
  const { pinch, volume, length } = size;
  return portOf({
    valves: Array.from({ length: size.valves ?? 1 }, () => ({
      head: millimetres(size.valve),
      stem: millimetres(size.stem),
    })),
    seat: { angle: degrees(size.seatAngle ?? 45), width: millimetres(size.seatWidth), bottom: [] },
    throat: millimetres(size.throat),
    ...(pinch === undefined ? {} : { pinch: { area: squareMetres(pinch * 1e-6), count: 1 } }),
    ...(volume === undefined ? {} : { portVolume: cubicMetres(volume * 1e-6) }),
    ...(length === undefined ? {} : { portLength: millimetres(length) }),
  });
}

function stageOf(sketch: Sketch, stage: StageSketch, index: number): Stage {
  const bench: Bench = {
    testPressure: inchesOfWater(28),
    reads: "flow",
    meter: "orifice",
    attached: {},
    liftSetting: inches(0.002),
    liftSettingIsDefault: true,
    ...sketch.bench,
    ...stage.bench,
  };
  const runs = stage.runs ?? (stage.flow === undefined ? [] : [{ rows: stage.flow }]);
  const sets = stage.sets ?? (runs.length === 0 ? [] : [{ runs }]);
  return {
    name: stage.name ?? `Stage ${index + 1}`,
    ...(stage.date === undefined ? {} : { date: stage.date }),
    ...(stage.repeats === undefined ? {} : { repeats: stage.repeats }),
    bench,
    ports: {
      ...(stage.intake === undefined ? {} : { intake: portOf(stage.intake) }),
      ...(stage.exhaust === undefined ? {} : { exhaust: portOf(stage.exhaust) }),
    },
    chambers: (stage.chambers ?? []).map((volume, k) => ({ chamber: k + 1, volume: cubicMetres(volume * 1e-6) })),
    chambersNotRemeasured: false,
    ...(stage.deckCut === undefined ? {} : { deck: { cut: inches(stage.deckCut) } }),
    sets: sets.map((set, k) => setOf(sketch, set, bench, k)),
  };
}

function setOf(sketch: Sketch, set: SetSketch, stageBench: Bench, index: number): FlowSet {
  const bench = { ...stageBench, ...set.bench };
  return {
    name: set.name ?? (index === 0 ? "bare" : `set ${index + 1}`),
    named: set.name !== undefined,
    bench,
    runs: set.runs.map((run) => runOf(sketch, run, bench)),
  };
}

function runOf(sketch: Sketch, run: RunSketch, setBench: Bench): Run {
  const bench = { ...setBench, ...run.bench };
  const unit = sketch.lifts === "mm" ? 0.001 : INCH;
  const readings = (side: Side) => {
    const column = side === "intake" ? 1 : 2;
    return run.rows.flatMap((row, k): Reading[] => {
      const cell = row[column];
      if (cell === undefined) return [];
      const pressure = row[3] === undefined ? bench.testPressure : inchesOfWater(row[3]);
      const at = { file: "job.yaml", start: 100 * column + 1000 * k, end: 100 * column + 1000 * k + 5 };
      const lift = metres(row[0] * unit);
      const parsed = parseCell(cell);
      const typed = {
        lift: show(lift, "length", sketch.lifts === "mm" ? "mm" : "in"),
        flow: `${typeof cell === "number" ? cell.toFixed(1) : cell.replace(/[~?!]/g, "")}\u00a0cfm`,
        liftAt: { file: "job.yaml", start: 1000 * k, end: 1000 * k + 5 },
      };
      return [{ lift, pressure, at, typed, ...parsed }];
    });
  };
  return {
    cylinder: run.cylinder ?? 1,
    ...(run.hand === undefined ? {} : { hand: run.hand }),
    mount: run.mount ?? 1,
    bench,
    readings: { intake: readings("intake"), exhaust: readings("exhaust") },
  };
}

function parseCell(cell: number | string): Pick<Reading, "kind" | "flow" | "resolution"> {
  const resolution = cfm(0.1);
  if (typeof cell === "number") return { kind: "good", flow: cfm(cell), resolution };
  if (cell === "-") return { kind: "missing" };
  const flow = cfm(Number(cell.replace(/[~?!]/g, "")));
  if (cell.startsWith("~")) return { kind: "struck out", flow, resolution };
  return { kind: cell.endsWith("?") ? "doubtful" : cell.endsWith("!") ? "noisy" : "good", flow, resolution };
}
