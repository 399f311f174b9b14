import { CONDITION_KEYS, type Conditions, conditionsOf, haveEqualConditions } from "../job/conditions.ts";
import { DEFAULTS } from "../job/defaults.ts";
import type { LoadedJob } from "../job/loaded-job.ts";
import { flowOfRange, rangeName } from "../job/readings/bench-ranges.ts";
import type { ReadingsTable } from "../job/readings/readings-table.ts";
import type { RunInJob } from "../job/readings/run-tables.ts";
import type { JobBench, JobRun } from "../job/schema/job.ts";
import { appendUnit } from "../units/append-unit.ts";
import { cubicMetresPerSecond } from "../units/quantity.ts";
import { buildBench } from "./build-bench.ts";
import type { Bench, FlowSet, Reading, Run, Side } from "./model.ts";

type RunGroup = {
  readonly named: string | undefined;
  /** Bench of its first run, as stated. */
  readonly stated: JobBench;
  readonly bench: Bench;
  readonly runs: Run[];
};

/** Groups the runs of a stage into sets of like conditions, the leading set first. */
export function buildSets(onFile: LoadedJob, stage: number, headlineSet: string | undefined): readonly FlowSet[] {
  return groupRuns(onFile, stage, headlineSet).map(({ name, named, bench, runs }) => ({
    name,
    named: named !== undefined,
    bench,
    runs,
  }));
}

/** Conditions of the leading set of a stage; undefined when it was not flowed. */
export const leadingConditions = (
  onFile: LoadedJob,
  stage: number,
  headlineSet: string | undefined,
): Conditions | undefined => {
  const lead = groupRuns(onFile, stage, headlineSet)[0];
  return lead && conditionsOf(lead.stated);
};

function groupRuns(
  onFile: LoadedJob,
  stage: number,
  headlineSet: string | undefined,
): readonly (RunGroup & { readonly name: string })[] {
  const groups: RunGroup[] = [];
  for (const run of onFile.runs) {
    if (run.stage !== stage) continue;
    const table = onFile.tables.find((one) => one.stage === stage && one.run === run.run)?.table;
    if (!table) continue;
    const stated = run.run === undefined ? undefined : onFile.job.stages?.[stage]?.runs?.[run.run];
    const built = buildRun(run, table, stated, benchFile(onFile));
    const mine = groups.find((set) => isSameName(set.named, stated?.set) && haveLikeConditions(set.stated, run.bench));
    if (mine) mine.runs.push(built);
    else groups.push({ named: stated?.set, stated: run.bench, bench: built.bench, runs: [built] });
  }
  // Names use the job's own units.
  const all = groups.map((set) => conditionsOf(set.stated, onFile.units));
  const sets = groups.map(({ named, stated, bench, runs }, k) => {
    const name = named ?? conditionsName(all[k]!, all);
    return { named, stated, bench, runs, name };
  });
  const leads = sets.findIndex((set) => headlineSet !== undefined && isSameName(set.name, headlineSet));
  const lead = sets[leads];
  return lead ? [lead, ...sets.toSpliced(leads, 1)] : sets;
}

const haveLikeConditions = (a: JobBench, b: JobBench) =>
  a === b || haveEqualConditions(conditionsOf(a), conditionsOf(b));

const isSameName = (a: string | undefined, b: string | undefined) =>
  a?.trim().toLowerCase() === b?.trim().toLowerCase();

/** Names a set by its differences from the others of the stage: "bare", "with pipe", "at 10 inH2O". */
function conditionsName(own: Conditions, all: readonly Conditions[]): string {
  const differs = CONDITION_KEYS.filter((key) => all.some((other) => other[key] !== own[key]));
  const fitted = (["pipe", "intake", "exhaust"] as const).filter((key) => own[key] !== "");
  const namedKeys = all.length === 1 ? fitted : differs;
  const words = namedKeys.flatMap((key) => CONDITION_NAMES[key](own[key]));
  if (words.length > 0) return words.join(", ");
  return fitted.length === 0 ? "bare" : fitted.flatMap((key) => CONDITION_NAMES[key](own[key])).join(", ");
}

const CONDITION_NAMES: Readonly<Record<keyof Conditions, (value: string) => readonly string[]>> = {
  bench: (value) => (value === "" ? [] : [`on ${value}`]),
  pressure: (value) => (value === "" ? [] : [`at ${value}`]),
  fixture: (value) => [value === "" ? "fixture not stated" : `fixture ${value}`],
  entry: (value) => [value === "" ? "no entry stated" : value],
  pipe: (value) => (value === "" ? [] : ["with pipe"]),
  intake: (value) => (value === "" ? [] : [`with ${value}`]),
  exhaust: (value) => (value === "" ? [] : [`with ${value}`]),
};

/** The file in which a bench without a name stands. */
export const benchFile = ({ shopFile, file }: LoadedJob): string => shopFile ?? file;

function buildRun(run: RunInJob, table: ReadingsTable, stated: JobRun | undefined, file: string): Run {
  const typical = table.rows.find(({ pressure }) => pressure.intake ?? pressure.exhaust)?.pressure;
  const bench = buildBench(run.bench, file, (typical?.intake ?? typical?.exhaust)?.value);
  return {
    cylinder: stated?.cylinder ?? DEFAULTS.cylinder,
    ...(stated?.cylinder === undefined && { cylinderIsDefault: true }),
    hand: stated?.hand,
    mount: stated?.mount ?? DEFAULTS.mount,
    bench,
    readings: {
      intake: buildReadings(table, "intake", run, bench),
      exhaust: buildReadings(table, "exhaust", run, bench),
    },
  };
}

function buildReadings(table: ReadingsTable, side: Side, run: RunInJob, bench: Bench): readonly Reading[] {
  const readings: Reading[] = [];
  const ranges = run.bench.ranges ?? {};
  const digits = table.rows.flatMap((row) => row.readings[side]?.resolution ?? []);
  const finest = digits.length === 0 ? undefined : Math.min(...digits);
  const unitOf = (name: string) => table.columns.find((column) => column.name === name)?.unit;
  for (const row of table.rows) {
    const cell = row.readings[side];
    if (!cell) continue;
    // A percent bench reads a share of the full flow of its range.
    const full = bench.reads === "percent" ? flowOfRange(ranges, row.range[side]?.text, side) : 1;
    const ofFull = (share: number | undefined) =>
      share === undefined || full === undefined ? undefined : cubicMetresPerSecond(share * full);
    readings.push({
      lift: row.lift.value,
      kind: cell.kind,
      flow: ofFull(cell.value),
      resolution: ofFull(cell.value === undefined ? undefined : finest),
      pressure: row.pressure[side]?.value ?? bench.testPressure,
      range: rangeName(ranges, row.range[side]?.text),
      reason: cell.reason,
      at: cell.span,
      typed: {
        lift: appendUnit(row.lift.text, "length", unitOf("lift")),
        flow: appendUnit(cell.text, bench.reads === "percent" ? "ratio" : "flow", unitOf(side)),
        liftAt: row.lift.span,
      },
    });
  }
  return readings;
}
