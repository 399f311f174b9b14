import { resolve } from "node:path";
import { resolveLinks } from "../../io/pinned-io.ts";
import { recordIo } from "../../io/recording-io.ts";
import { watchFiles } from "../../io/watch-files.ts";
import type { Environment } from "../environment.ts";
import { UsageError } from "../environment.ts";
import { findJobs } from "../find-jobs.ts";
import type { JobList } from "./messages.ts";

/** The list of jobs, kept up to date: a job keeps its number, new ones are appended. */
export type FollowedList = {
  readonly now: () => JobList;
  readonly jobOf: (job: number) => ListedJob | undefined;
  readonly listen: (listener: (list: JobList) => void) => () => void;
  readonly close: () => void;
};

/** A job: its path as shown, and where that led when it was first listed. */
export type ListedJob = { readonly path: string; readonly real: string };

/** Finds the jobs, now and after each change of a file or folder on their paths. Throws a UsageError if there are none now. */
export function followList(asked: readonly string[], world: Environment): FollowedList {
  const numbered: ListedJob[] = [];
  const listeners = new Set<(list: JobList) => void>();
  const watcher = watchFiles(() => {
    const before = JSON.stringify(list);
    try {
      list = read();
    } catch (error) {
      // The folder is empty or missing for now: the jobs stay listed, and their views report what is missing.
      if (!(error instanceof UsageError)) throw error;
    }
    if (JSON.stringify(list) !== before) for (const listener of listeners) listener(list);
  });
  const numberOf = (path: string): number => {
    const known = numbered.findIndex((one) => one.path === path);
    if (known >= 0) return known;
    return numbered.push({ path, real: resolveLinks(resolve(world.cwd, path), world.io) }) - 1;
  };
  const read = (): JobList => {
    const found = findJobs(asked, { ...world, io: recordIo(world.io, watcher.add).io });
    return { jobs: found.map((path) => ({ job: numberOf(path), path })) };
  };
  let list: JobList;
  try {
    list = read();
  } catch (error) {
    watcher.close();
    throw error;
  }
  return {
    now: () => list,
    jobOf: (job) => numbered[job],
    listen: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    close: watcher.close,
  };
}
