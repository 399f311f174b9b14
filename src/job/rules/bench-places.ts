import type { Path } from "../../parse/yaml/source-document.ts";
import type { Job, JobBench } from "../schema/job.ts";

/** Every `bench` of a job with its place. */
export function benchPlaces(job: Job): readonly BenchPlace[] {
  const places: BenchPlace[] = [];
  const add = (bench: JobBench | undefined, ...path: Path) => {
    if (bench !== undefined) places.push({ bench, path });
  };
  add(job.bench, "bench");
  job.stages?.forEach((stage, index) => {
    add(stage.bench, "stages", index, "bench");
    stage.runs?.forEach((run, at) => {
      add(run.bench, "stages", index, "runs", at, "bench");
    });
  });
  return places;
}

type BenchPlace = { readonly bench: JobBench; readonly path: Path };
