import type { LoadedJob } from "../job/loaded-job.ts";
import { mergeBench } from "../job/merge-bench.ts";
import { jobSchema } from "../job/schema/job.ts";
import { keyAt, keyTree } from "../job/schema/keys.ts";
import type { Model } from "../model/model.ts";
import type { YamlValue } from "../parse/yaml/source-document.ts";
import { stringifyYaml } from "../parse/yaml/stringify-yaml.ts";
import { parseWithheld, type Withheld } from "../sheet/withheld.ts";
import { omitUndefined } from "../util/omit-undefined.ts";
import { exportedPart } from "./exported-keys.ts";
import { formatReadingsTable } from "./readings-text.ts";

/**
 * Builds the customer's copy of a job: one file that yields the same figures without the shop file. It has no comments, notes,
 * file names, photos or other heads, and nothing that the shop withholds.
 */
export function buildJobCopy({ job, shop, units, runs, tables }: LoadedJob, model: Pick<Model, "report">): string {
  const withheld = parseWithheld(model.report.holdBack);
  const tree = keyTree(jobSchema());
  /** The exported part of the value at `path` of a job. */
  const exportPart = (value: unknown, ...path: readonly string[]): YamlMap =>
    (exportedPart(value, keyAt(tree, path)!, withheld, units) ?? {}) as YamlMap;
  const bench = (stated: unknown) => optionalEntry("bench", exportPart(stated, "bench"));
  const stages = (job.stages ?? []).map((stage, index): YamlMap => {
    const sweeps = runs.flatMap(({ stage: at, run }): YamlMap[] => {
      const table = tables.find((one) => one.stage === at && one.run === run)?.table;
      if (at !== index || !table) return [];
      const stated = run === undefined ? undefined : stage.runs?.[run];
      return [{ ...exportPart(stated, "stages", "runs"), ...bench(stated?.bench), flow: formatReadingsTable(table) }];
    });
    return { ...exportPart(stage, "stages"), ...bench(stage.bench), ...(sweeps.length > 0 ? { runs: sweeps } : {}) };
  });
  const copy = {
    ...exportPart(removeWithheld(job, withheld)),
    ...optionalEntry("units", units as YamlMap),
    ...bench(mergeBench(shop?.bench, job.bench)),
    ...optionalEntry("report", exportPart({ ...shop?.report, ...job.report }, "report")),
    ...optionalEntry(
      "valve_train_limits",
      exportPart({ ...shop?.valve_train_limits, ...omitUndefined(job.valve_train_limits ?? {}) }, "valve_train_limits"),
    ),
    ...(stages.length > 0 ? { stages } : {}),
  };
  return stringifyYaml(copy, "always");
}

type YamlMap = { readonly [key: string]: YamlValue };

/** Removes free-text entries that name withheld features. */
export const removeWithheld = (job: LoadedJob["job"], withheld: Withheld) => ({
  ...job,
  checks: job.checks?.filter(({ check }) => !withheld.names(check)),
  also_measured: job.also_measured?.filter(({ what }) => !withheld.names(what)),
  agreed: job.agreed?.filter((words) => !withheld.names(words)),
  assembly: Object.fromEntries(Object.entries(job.assembly ?? {}).filter(([what]) => !withheld.names(what))),
});

const optionalEntry = (key: string, value: YamlMap): YamlMap => (Object.keys(value).length > 0 ? { [key]: value } : {});
