import { relative } from "node:path";
import { disk } from "../../src/io/disk.ts";
import { listJobs } from "../../src/project/list-jobs.ts";
import { workOut } from "./work-out.ts";

const JOBS = new URL("../../jobs", import.meta.url).pathname;

/** Every demo job from its files to its figures, with all that is said of it on the way. */
export const demoFigures = listJobs(JOBS, disk).map((path) => ({
  name: relative(JOBS, path),
  ...workOut(path, disk),
}));
