import { randomUUID } from "node:crypto";
import { closeSync, openSync, readFileSync, rmSync, statSync, writeSync } from "node:fs";
import { HOST, isAbandoned } from "./abandoned.ts";
import { withErrorPath } from "./temporary-file.ts";

/** Longest wait for the process that holds the lock [ms]; work under a lock takes a few milliseconds. */
const WAIT_LIMIT = 5_000;
const POLL_INTERVAL = 5;
/** Age from which a lock is abandoned, whoever holds it [ms]. */
const MAX_AGE = 60_000;
/** The same for an empty lock: its process was killed between creating it and writing its name [ms]. */
const MAX_EMPTY_AGE = 2_000;

/**
 * Runs `work` while no other process holds the lock file at `path`. The lock of a killed process is removed, which needs a lock
 * of its own: of two that find it abandoned, the slower would else remove the lock of the faster. Throws a system error if the
 * lock cannot be had within `waitLimit` [ms].
 */
export function withLock<T>(path: string, work: () => T, waitLimit = WAIT_LIMIT): T {
  const own = `${HOST} ${process.pid} ${randomUUID()}`;
  const end = performance.now() + waitLimit;
  while (!createLock(path, own)) {
    const holder = abandonedHolder(path);
    if (holder !== undefined)
      withLock(`${path}-`, () => {
        if (abandonedHolder(path) === holder) rmSync(path, { force: true });
      });
    else if (performance.now() > end)
      throw Object.assign(new Error("locked"), { syscall: "open", code: "ELOCKED", path });
    else Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, POLL_INTERVAL);
  }
  try {
    return work();
  } finally {
    if (holderOf(path) === own) rmSync(path, { force: true });
  }
}

/** Creates the lock with its holder's name; false where another process holds it. */
function createLock(path: string, own: string): boolean {
  let file: number;
  try {
    file = openSync(path, "wx");
  } catch (failure) {
    if ((failure as NodeJS.ErrnoException).code === "EEXIST") return false;
    throw failure;
  }
  try {
    withErrorPath(path, () => writeSync(file, own));
  } catch (failure) {
    rmSync(path, { force: true });
    throw failure;
  } finally {
    closeSync(file);
  }
  return holderOf(path) === own;
}

function holderOf(path: string): string | undefined {
  try {
    return readFileSync(path, "utf8");
  } catch {
    return undefined;
  }
}

/** The name in the lock, if the lock is too old or its process no longer runs. */
function abandonedHolder(path: string): string | undefined {
  const holder = holderOf(path);
  const found = statSync(path, { throwIfNoEntry: false });
  if (holder === undefined || found === undefined) return undefined;
  const [host = "", pid = ""] = holder.split(" ");
  const now = Date.now();
  const age = now - found.mtimeMs;
  const isGone = () => holder !== "" && isAbandoned(host, Number(pid), found.mtimeMs, now);
  return age > (holder === "" ? MAX_EMPTY_AGE : MAX_AGE) || isGone() ? holder : undefined;
}
