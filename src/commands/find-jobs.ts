import { join, relative, resolve } from "node:path";
import { listJobs } from "../project/list-jobs.ts";
import type { Environment } from "./environment.ts";
import { UsageError } from "./usage-error.ts";

/** The jobs that were asked for, each once: paths or folders; with none given, all under `jobs/`. As paths from the working folder. */
export function findJobs(asked: readonly string[], { io, cwd }: Environment): readonly string[] {
  const paths = asked.length > 0 ? asked : ["jobs"];
  const found = paths.flatMap((path) => {
    const full = resolve(cwd, path);
    const standing = io.stat(full);
    if (standing?.kind === "folder") {
      const jobs = listJobs(full, io);
      if (jobs.length === 0)
        throw new UsageError(`no job file under \`${path}\`: a job file is a .yaml with \`job:\` or \`product:\``);
      return jobs;
    }
    if (!standing && asked.length === 0)
      throw new UsageError(
        "there is no `jobs` folder here: name a job file, or start one with `headsheet new jobs/mine.yaml`",
      );
    return [full];
  });
  const seen = new Set<string>();
  return found
    .filter((path) => {
      const real = io.realPath(path) ?? path;
      return !seen.has(real) && seen.add(real);
    })
    .map((path) => shortest(cwd, path));
}

/** A path as one would type it from here. */
export function shortest(cwd: string, path: string): string {
  const near = relative(cwd, path);
  return near === "" || near.startsWith(join("..", "..", "..")) ? path : near;
}
