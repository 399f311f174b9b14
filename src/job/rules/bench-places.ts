import type { Path } from "../../source/located.ts";
import type { Job, JobBench } from "../schema/job.ts";

/** Every `bench` of a job with its place. */
export function benchPlaces(job: Job): readonly { readonly bench: JobBench | undefined; readonly path: Path }[] {
  return [
    { bench: job.bench, path: ["bench"] },
    ...(job.stages ?? []).flatMap((stage, index) => [
      { bench: stage.bench, path: ["stages", index, "bench"] },
      ...(stage.runs ?? []).map((run, at) => ({ bench: run.bench, path: ["stages", index, "runs", at, "bench"] })),
    ]),
  ];
}
