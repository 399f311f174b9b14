import { alike, CONDITION_KEYS, type Conditions, conditionsOf } from "../job/conditions.ts";
import { DEFAULTS } from "../job/defaults.ts";
import { flowOfRange } from "../job/flow-of-range.ts";
import type { JobOnFile } from "../job/job-on-file.ts";
import type { ReadingsTable } from "../job/readings-table.ts";
import type { RunInJob } from "../job/run-tables.ts";
import type { JobRun } from "../job/schema/job.ts";
import { cubicMetresPerSecond } from "../units/quantity.ts";
import { buildBench } from "./build-bench.ts";
import type { Bench, FlowSet, Reading, Run, Side } from "./model.ts";
import { present } from "./present.ts";

type Gathering = {
  readonly named: string | undefined;
  readonly conditions: Conditions;
  /** In the job's own units, for names. */
  readonly shown: Conditions;
  readonly bench: Bench;
  readonly runs: Run[];
};

/** The sweeps of one stage sorted into sets of like conditions; the one that leads stands first. */
export function buildSets(onFile: JobOnFile, stage: number, headlineSet: string | undefined): readonly FlowSet[] {
  return gatherSets(onFile, stage, headlineSet).map(({ name, named, bench, runs }) => ({
    name,
    named: named !== undefined,
    bench,
    runs,
  }));
}

/** Conditions of the set that leads a stage; undefined when it was not flowed. */
export const leadingConditions = (
  onFile: JobOnFile,
  stage: number,
  headlineSet: string | undefined,
): Conditions | undefined => gatherSets(onFile, stage, headlineSet)[0]?.conditions;

function gatherSets(
  onFile: JobOnFile,
  stage: number,
  headlineSet: string | undefined,
): readonly (Gathering & { readonly name: string })[] {
  const gathered: Gathering[] = [];
  for (const run of onFile.runs.filter((one) => one.stage === stage)) {
    const table = onFile.tables.find((one) => one.stage === stage && one.run === run.run)?.table;
    if (!table) continue;
    const stated = run.run === undefined ? undefined : onFile.job.stages?.[stage]?.runs?.[run.run];
    const built = buildRun(run, table, stated);
    const conditions = conditionsOf(run.bench);
    const mine = gathered.find((set) => sameName(set.named, stated?.set) && alike(set.conditions, conditions));
    if (mine) mine.runs.push(built);
    else
      gathered.push({
        named: stated?.set,
        conditions,
        shown: conditionsOf(run.bench, onFile.units),
        bench: built.bench,
        runs: [built],
      });
  }
  const all = gathered.map((set) => set.shown);
  const sets = gathered.map((set) => ({ ...set, name: set.named ?? nameOf(set.shown, all) }));
  const leads = sets.findIndex((set) => headlineSet !== undefined && sameName(set.name, headlineSet));
  const lead = sets[leads];
  return lead ? [lead, ...sets.toSpliced(leads, 1)] : sets;
}

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
  const typical = table.rows.flatMap((row) => row.pressure.intake ?? row.pressure.exhaust ?? [])[0]?.value;
  const bench = buildBench(run.bench, typical);
  return {
    cylinder: stated?.cylinder ?? DEFAULTS.cylinder,
    ...present({ hand: stated?.hand }),
    mount: stated?.mount ?? DEFAULTS.mount,
    bench,
    readings: { intake: readingsOf(table, "intake", run, bench), exhaust: readingsOf(table, "exhaust", run, bench) },
  };
}

function readingsOf(table: ReadingsTable, side: Side, run: RunInJob, bench: Bench): readonly Reading[] {
  return table.rows.flatMap((row): Reading[] => {
    const cell = row.readings[side];
    if (!cell) return [];
    // A percent bench reads a share of its range's flow.
    const full = bench.reads === "percent" ? flowOfRange(run.bench.ranges ?? {}, row.range[side]?.text, side) : 1;
    const flow = cell.value === undefined || full === undefined ? undefined : cubicMetresPerSecond(cell.value * full);
    const resolution =
      cell.resolution === undefined || full === undefined ? undefined : cubicMetresPerSecond(cell.resolution * full);
    return [
      {
        lift: row.lift.value,
        kind: cell.kind,
        ...present({ flow, resolution }),
        pressure: row.pressure[side]?.value ?? bench.testPressure,
        ...present({ reason: cell.reason }),
        at: cell.span,
      },
    ];
  });
}
