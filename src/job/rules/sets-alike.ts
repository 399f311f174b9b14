import { error } from "../../diagnostics/build.ts";
import { alike, conditionsOf } from "../conditions.ts";
import { runsOf } from "../readings/run-tables.ts";
import type { JobRule } from "./rule.ts";

/** Runs of one named set share their conditions: only then are their readings repeats of each other. */
export const setsAlike: JobRule = ({ job, located, shopBench }) => {
  if (!job.stages?.some((stage) => stage.runs?.some((run) => run.set !== undefined))) return [];
  const runs = runsOf(job, shopBench).flatMap((run) => {
    const name = run.run === undefined ? undefined : job.stages?.[run.stage]?.runs?.[run.run]?.set;
    return name === undefined ? [] : [{ ...run, name: name.toLowerCase() }];
  });
  return runs.flatMap((run, index) => {
    const first = runs.findIndex((other) => other.stage === run.stage && other.name === run.name);
    const before = runs[first];
    if (first === index || !before || alike(conditionsOf(before.bench), conditionsOf(run.bench))) return [];
    return [
      error(
        "job/set-unlike",
        "this run was taken under other conditions than the rest of its set",
        located.span([...run.path, "set"]),
        {
          note: "readings of one set are taken as repeats of each other",
          hint: "give it a set of its own",
        },
      ),
    ];
  });
};
