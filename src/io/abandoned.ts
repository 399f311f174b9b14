import { hostname } from "node:os";

/** This host, in files that must tell whose they are. */
export const HOST = hostname().replace(/[^A-Za-z0-9]+/g, "-");
/** No write takes as long as this [ms]. */
const MAX_WRITE_TIME = 60 * 60 * 1000;

/**
 * Whether the process that wrote a file at `writtenAt` [ms] no longer runs. Processes of another host on a shared disk cannot be
 * checked: only age counts there.
 */
export function isAbandoned(host: string, pid: number, writtenAt: number, now: number): boolean {
  if (now - writtenAt > MAX_WRITE_TIME) return true;
  if (host !== HOST) return false;
  // An earlier process with our own id: in a container each start gets the same one.
  if (pid === process.pid) return writtenAt < performance.timeOrigin;
  return !isAlive(pid);
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (failure) {
    return (failure as NodeJS.ErrnoException).code !== "ESRCH";
  }
}
