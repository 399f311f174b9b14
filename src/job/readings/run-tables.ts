import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { parseDelimited } from "../../parse/parse-delimited.ts";
import type { Path, SourceDocument } from "../../parse/yaml/source-document.ts";
import { mergeBench } from "../merge-bench.ts";
import type { Job, JobBench } from "../schema/job.ts";
import type { DeclaredUnits } from "../schema/quantities.ts";
import { rangesKnown } from "./bench-ranges.ts";
import { parseReadingsTable, type ReadingsTable, readingsRows } from "./readings-table.ts";

/** One sweep of a stage, typed in the job or in a readings file. */
export type RunInJob = {
  readonly stage: number;
  /** Index in `runs`; undefined for the short form. */
  readonly run: number | undefined;
  readonly path: Path;
  /** Merged from shop, job, stage and run; the later wins. */
  readonly bench: JobBench;
  readonly file?: string;
  readonly flow?: string;
};

/** A sweep with its readings. */
export type RunTable = { readonly stage: number; readonly run: number | undefined; readonly table: ReadingsTable };

/** Every sweep of a job in order, the short form included. */
export function runsOf(job: Job, shopBench: JobBench | undefined): readonly RunInJob[] {
  const ofJob = mergeBench(shopBench, job.bench);
  return (job.stages ?? []).flatMap((stage, index): RunInJob[] => {
    const bench = mergeBench(ofJob, stage.bench);
    const long = (stage.runs ?? []).map((run, at) => ({
      stage: index,
      run: at,
      path: ["stages", index, "runs", at],
      bench: mergeBench(bench, run.bench),
      file: run.file,
      flow: run.flow,
    }));
    const short =
      stage.flow === undefined
        ? []
        : [{ stage: index, run: undefined, path: ["stages", index], bench, flow: stage.flow }];
    return [...short, ...long];
  });
}

type Read = { readonly tables: readonly RunTable[]; readonly diagnostics: readonly Diagnostic[] };

/** Parses the tables typed in the job itself. */
export function readInlineTables(runs: readonly RunInJob[], located: SourceDocument, units: DeclaredUnits): Read {
  const tables: RunTable[] = [];
  const diagnostics: Diagnostic[] = [];
  for (const run of runs) {
    const path = [...run.path, "flow"];
    // The rule `literalTables` reports a table folded into one line; parsing its rows would add further errors.
    if (run.flow === undefined || !(located.isLiteralBlock(path) || run.flow.trim().includes("\n"))) continue;
    const at = (start: number, end: number) => located.textSpan(path, start, end);
    const read = parseReadingsTable(readingsRows(run.flow), {
      units,
      reads: run.bench.reads ?? "flow",
      grows: true,
      at,
    });
    diagnostics.push(...read.diagnostics, ...(read.table ? rangesKnown(run.bench, read.table) : []));
    if (read.table) tables.push({ stage: run.stage, run: run.run, table: read.table });
  }
  return { tables, diagnostics };
}

/** Parses the readings file (CSV or TSV) that a run names. */
export function readTableFile(run: RunInJob, file: string, text: string, units: DeclaredUnits): Read {
  const { rows, diagnostics: faults } = parseDelimited(file, text);
  const at = (start: number, end: number) => ({ file, start, end });
  if (faults.length > 0) return { tables: [], diagnostics: faults };
  const read = parseReadingsTable(rows, { units, reads: run.bench.reads ?? "flow", at });
  const { table } = read;
  if (!table) return { tables: [], diagnostics: read.diagnostics };
  return {
    tables: [{ stage: run.stage, run: run.run, table }],
    diagnostics: [...read.diagnostics, ...rangesKnown(run.bench, table)],
  };
}
