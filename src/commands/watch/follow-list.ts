import { recordIo } from "../../io/recording-io.ts";
import { watchFiles } from "../../io/watch-files.ts";
import type { Environment } from "../environment.ts";
import { findJobs } from "../find-jobs.ts";
import { UsageError } from "../usage-error.ts";
import type { JobList } from "./messages.ts";

/** The jobs that were asked for, followed: a job keeps its number, and new ones come behind. */
export type FollowedList = {
  readonly now: () => JobList;
  readonly pathOf: (job: number) => string | undefined;
  readonly listen: (listener: (list: JobList) => void) => () => void;
  readonly close: () => void;
};

/** Finds the jobs now, which may be wrong use, and again whenever a file or folder on the way has changed. */
export function followList(asked: readonly string[], world: Environment): FollowedList {
  const numbered: string[] = [];
  const listeners = new Set<(list: JobList) => void>();
  const following = watchFiles(() => {
    const before = JSON.stringify(list);
    try {
      list = read();
    } catch (error) {
      // The folder is empty or gone for now: the jobs that were there stay on the page, and say so themselves.
      if (!(error instanceof UsageError)) throw error;
    }
    if (JSON.stringify(list) !== before) for (const listener of listeners) listener(list);
  });
  const read = (): JobList => {
    const found = findJobs(asked, { ...world, io: recordIo(world.io, following.add).io });
    for (const path of found) if (!numbered.includes(path)) numbered.push(path);
    return { jobs: found.map((path) => ({ job: numbered.indexOf(path), path })) };
  };
  let list: JobList;
  try {
    list = read();
  } catch (error) {
    following.close();
    throw error;
  }
  return {
    now: () => list,
    pathOf: (job) => numbered[job],
    listen: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    close: following.close,
  };
}
