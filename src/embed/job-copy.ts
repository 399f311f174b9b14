import type { LoadedJob } from "../job/loaded-job.ts";
import { mergeBench } from "../job/merge-bench.ts";
import { keyAt, keyTree } from "../job/schema/keys.ts";
import { sharedJobSchema } from "../job/validate/parse-job.ts";
import type { Model } from "../model/model.ts";
import type { YamlValue } from "../parse/yaml/source-document.ts";
import { stringifyYaml } from "../parse/yaml/stringify-yaml.ts";
import { parseWithheld, type Withheld } from "../sheet/withheld.ts";
import { exportedPart } from "./exported-keys.ts";
import { readingsText } from "./readings-text.ts";

/**
 * The customer's copy of his job: one file that makes the same figures without the shop's. No comments, notes, file names,
 * photos or other heads; nothing that the shop holds back.
 */
export function jobCopy({ job, shop, units, runs, tables }: LoadedJob, model: Pick<Model, "report">): string {
  const held = parseWithheld(model.report.holdBack);
  const tree = keyTree(sharedJobSchema());
  /** What of a value is exported that stands at `path` in a job. */
  const take = (value: unknown, ...path: readonly string[]): PlainMap =>
    (exportedPart(value, keyAt(tree, path)!, held, units) ?? {}) as PlainMap;
  const bench = (stated: unknown) => some("bench", take(stated, "bench"));
  const stages = (job.stages ?? []).map((stage, index): PlainMap => {
    const sweeps = runs.flatMap(({ stage: at, run }): PlainMap[] => {
      const table = tables.find((one) => one.stage === at && one.run === run)?.table;
      if (at !== index || !table) return [];
      const stated = run === undefined ? undefined : stage.runs?.[run];
      return [{ ...take(stated, "stages", "runs"), ...bench(stated?.bench), flow: readingsText(table) }];
    });
    return { ...take(stage, "stages"), ...bench(stage.bench), ...(sweeps.length > 0 ? { runs: sweeps } : {}) };
  });
  const copy = {
    ...take(withoutHeld(job, held)),
    ...some("units", units as PlainMap),
    ...bench(mergeBench(shop?.bench, job.bench)),
    ...some("report", take({ ...shop?.report, ...job.report }, "report")),
    ...(stages.length > 0 ? { stages } : {}),
  };
  return stringifyYaml(copy, "always");
}

type PlainMap = { readonly [key: string]: YamlValue };

/** The shop's own words may name what it holds back. */
const withoutHeld = (job: LoadedJob["job"], held: Withheld) => ({
  ...job,
  checks: job.checks?.filter(({ check }) => !held.names(check)),
  also_measured: job.also_measured?.filter(({ what }) => !held.names(what)),
  assembly: Object.fromEntries(Object.entries(job.assembly ?? {}).filter(([what]) => !held.names(what))),
});

const some = (key: string, value: PlainMap): PlainMap => (Object.keys(value).length > 0 ? { [key]: value } : {});
