import type { JobOnFile } from "../job/job-on-file.ts";
import { mergeBench } from "../job/merge-bench.ts";
import type { Model } from "../model/model.ts";
import { type Held, readHeld } from "../sheet/held.ts";
import type { Plain } from "../source/located.ts";
import { stringifyYaml } from "../source/stringify-yaml.ts";
import { benchShape, jobShape, reportShape, stageShape } from "./job-shape.ts";
import { readingsText } from "./readings-text.ts";
import { keep, type Shape } from "./shape.ts";

/**
 * The customer's copy of his job: one file that makes the same figures without the shop's. No comments, notes, file names,
 * photos or other heads; nothing that the shop holds back.
 */
export function jobCopy({ job, shop, units, runs, tables }: JobOnFile, model: Pick<Model, "report">): string {
  const held = readHeld(model.report.holdBack);
  const take = (value: unknown, shape: Shape): Record<string, Plain> =>
    (keep(value, shape, units) ?? {}) as Record<string, Plain>;
  const bench = (stated: unknown) => some("bench", take(stated, benchShape));
  const stages = (job.stages ?? []).map((stage, index): Record<string, Plain> => {
    const sweeps = runs.flatMap(({ stage: at, run }): Record<string, Plain>[] => {
      const table = tables.find((one) => one.stage === at && one.run === run)?.table;
      if (at !== index || !table) return [];
      const stated = run === undefined ? undefined : stage.runs?.[run];
      return [{ ...take(stated, runShape), ...bench(stated?.bench), flow: readingsText(table) }];
    });
    return { ...take(stage, stageShape(held)), ...bench(stage.bench), ...(sweeps.length > 0 ? { runs: sweeps } : {}) };
  });
  const copy = {
    ...take(withoutHeld(job, held), jobShape),
    ...some("units", units as Record<string, Plain>),
    ...bench(mergeBench(shop?.bench, job.bench)),
    ...some("report", take({ ...shop?.report, ...job.report }, reportShape(held))),
    ...(stages.length > 0 ? { stages } : {}),
  };
  return stringifyYaml(copy, "always");
}

const runShape: Shape = {
  keys: { set: { text: true }, cylinder: { number: true }, hand: { text: true }, mount: { number: true } },
};

/** The shop's own words may name what it holds back. */
const withoutHeld = (job: JobOnFile["job"], held: Held) => ({
  ...job,
  checks: job.checks?.filter(({ check }) => !held.names(check)),
  also_measured: job.also_measured?.filter(({ what }) => !held.names(what)),
  assembly: Object.fromEntries(Object.entries(job.assembly ?? {}).filter(([what]) => !held.names(what))),
});

const some = (key: string, value: Record<string, Plain>): Record<string, Plain> =>
  Object.keys(value).length > 0 ? { [key]: value } : {};
