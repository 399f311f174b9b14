import { join, relative, resolve } from "node:path";
import { listJobs } from "../project/list-jobs.ts";
import { type Environment, UsageError } from "./environment.ts";

/** Resolves typed paths and folders to job files, each once, relative to the working folder; with none typed, all below `jobs/`. */
export function findJobs(typed: readonly string[], { io, cwd }: Environment): readonly string[] {
  const paths = typed.length > 0 ? typed : ["jobs"];
  const found = paths.flatMap((path) => {
    const full = resolve(cwd, path);
    const stat = io.stat(full);
    if (stat?.kind === "folder") {
      const jobs = listJobs(full, io);
      if (jobs.length === 0)
        throw new UsageError(`no job file under \`${path}\`: a job file is a .yaml with \`job:\` or \`product:\``);
      return jobs;
    }
    if (!stat && typed.length === 0)
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
    .map((path) => displayPath(cwd, path));
}

/** A path relative to the working folder, unless it leads three folders up or more. */
export function displayPath(cwd: string, path: string): string {
  const short = relative(cwd, path);
  return short === "" || short.startsWith(join("..", "..", "..")) ? path : short;
}
