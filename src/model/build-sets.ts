import { alike, CONDITION_KEYS, type Conditions, conditionsOf } from "../job/conditions.ts";
import { DEFAULTS } from "../job/defaults.ts";
import type { LoadedJob } from "../job/loaded-job.ts";
import { flowOfRange } from "../job/readings/flow-of-range.ts";
import type { ReadingsTable } from "../job/readings/readings-table.ts";
import type { RunInJob } from "../job/readings/run-in-job.ts";
import type { JobBench, JobRun } from "../job/schema/job.ts";
import { cubicMetresPerSecond } from "../units/quantity.ts";
import { buildBench } from "./build-bench.ts";
import type { Bench, FlowSet, Reading, Run, Side } from "./model.ts";

type Gathering = {
  readonly named: string | undefined;
  /** As stated for the first of its runs. */
  readonly stated: JobBench;
  readonly bench: Bench;
  readonly runs: Run[];
};

/** The sweeps of one stage sorted into sets of like conditions; the one that leads stands first. */
export function buildSets(onFile: LoadedJob, stage: number, headlineSet: string | undefined): readonly FlowSet[] {
  return gatherSets(onFile, stage, headlineSet).map(({ name, named, bench, runs }) => ({
    name,
    named: named !== undefined,
    bench,
    runs,
  }));
}

/** Conditions of the set that leads a stage; undefined when it was not flowed. */
export const leadingConditions = (
  onFile: LoadedJob,
  stage: number,
  headlineSet: string | undefined,
): Conditions | undefined => {
  const lead = gatherSets(onFile, stage, headlineSet)[0];
  return lead && conditionsOf(lead.stated);
};

function gatherSets(
  onFile: LoadedJob,
  stage: number,
  headlineSet: string | undefined,
): readonly (Gathering & { readonly name: string })[] {
  const gathered: Gathering[] = [];
  for (const run of onFile.runs) {
    if (run.stage !== stage) continue;
    const table = onFile.tables.find((one) => one.stage === stage && one.run === run.run)?.table;
    if (!table) continue;
    const stated = run.run === undefined ? undefined : onFile.job.stages?.[stage]?.runs?.[run.run];
    const built = buildRun(run, table, stated);
    const mine = gathered.find((set) => sameName(set.named, stated?.set) && takenAlike(set.stated, run.bench));
    if (mine) mine.runs.push(built);
    else gathered.push({ named: stated?.set, stated: run.bench, bench: built.bench, runs: [built] });
  }
  // In the job's own units, for names.
  const all = gathered.map((set) => conditionsOf(set.stated, onFile.units));
  const sets = gathered.map(({ named, stated, bench, runs }, k) => {
    const name = named ?? nameOf(all[k]!, all);
    return { named, stated, bench, runs, name };
  });
  const leads = sets.findIndex((set) => headlineSet !== undefined && sameName(set.name, headlineSet));
  const lead = sets[leads];
  return lead ? [lead, ...sets.toSpliced(leads, 1)] : sets;
}

const takenAlike = (a: JobBench, b: JobBench) => a === b || alike(conditionsOf(a), conditionsOf(b));

const sameName = (a: string | undefined, b: string | undefined) => a?.trim().toLowerCase() === b?.trim().toLowerCase();

/** A set's name from what sets it apart from the others of its stage: "bare", "with pipe", "at 10 inH2O". */
function nameOf(own: Conditions, all: readonly Conditions[]): string {
  const differs = CONDITION_KEYS.filter((key) => all.some((other) => other[key] !== own[key]));
  const fitted = (["pipe", "intake", "exhaust"] as const).filter((key) => own[key] !== "");
  const told = all.length === 1 ? fitted : differs;
  const words = told.flatMap((key) => WORDS[key](own[key]));
  if (words.length > 0) return words.join(", ");
  return fitted.length === 0 ? "bare" : fitted.flatMap((key) => WORDS[key](own[key])).join(", ");
}

const WORDS: Readonly<Record<keyof Conditions, (value: string) => readonly string[]>> = {
  bench: (value) => (value === "" ? [] : [`on ${value}`]),
  pressure: (value) => (value === "" ? [] : [`at ${value}`]),
  fixture: (value) => [value === "" ? "fixture not stated" : `fixture ${value}`],
  entry: (value) => [value === "" ? "no entry stated" : value],
  pipe: (value) => (value === "" ? [] : ["with pipe"]),
  intake: (value) => (value === "" ? [] : [`with ${value}`]),
  exhaust: (value) => (value === "" ? [] : [`with ${value}`]),
};

function buildRun(run: RunInJob, table: ReadingsTable, stated: JobRun | undefined): Run {
  const typical = table.rows.find(({ pressure }) => pressure.intake ?? pressure.exhaust)?.pressure;
  const bench = buildBench(run.bench, (typical?.intake ?? typical?.exhaust)?.value);
  return {
    cylinder: stated?.cylinder ?? DEFAULTS.cylinder,
    hand: stated?.hand,
    mount: stated?.mount ?? DEFAULTS.mount,
    bench,
    readings: { intake: readingsOf(table, "intake", run, bench), exhaust: readingsOf(table, "exhaust", run, bench) },
  };
}

function readingsOf(table: ReadingsTable, side: Side, run: RunInJob, bench: Bench): readonly Reading[] {
  const readings: Reading[] = [];
  for (const row of table.rows) {
    const cell = row.readings[side];
    if (!cell) continue;
    // A percent bench reads a share of its range's flow.
    const full = bench.reads === "percent" ? flowOfRange(run.bench.ranges ?? {}, row.range[side]?.text, side) : 1;
    const ofFull = (share: number | undefined) =>
      share === undefined || full === undefined ? undefined : cubicMetresPerSecond(share * full);
    readings.push({
      lift: row.lift.value,
      kind: cell.kind,
      flow: ofFull(cell.value),
      resolution: ofFull(cell.resolution),
      pressure: row.pressure[side]?.value ?? bench.testPressure,
      reason: cell.reason,
      at: cell.span,
    });
  }
  return readings;
}
