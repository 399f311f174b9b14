import { randomUUID } from "node:crypto";
import { closeSync, openSync, readFileSync, rmSync, statSync, writeSync } from "node:fs";
import { HOST, isAbandoned } from "./abandoned.ts";

/** How long to wait for another process [ms]; what is done under a lock takes a few milliseconds. */
const PATIENCE = 15_000;
const PAUSE = 5;
/** A lock without a name was created by a process that was killed before it wrote one [ms]. */
const NAMELESS = 2_000;

/**
 * Runs `work` while no other process holds the lock file at `path`. The lock of a killed process is removed, which needs a lock
 * of its own: of two that find it abandoned, the slower would else remove the lock of the faster. Throws a system error if the
 * lock stays taken.
 */
export function withLock<T>(path: string, work: () => T): T {
  const own = `${HOST} ${process.pid} ${randomUUID()}`;
  const end = performance.now() + PATIENCE;
  while (!create(path, own)) {
    const holder = abandonedHolder(path);
    if (holder !== undefined)
      withLock(`${path}-`, () => {
        if (abandonedHolder(path) === holder) rmSync(path, { force: true });
      });
    else if (performance.now() > end)
      throw Object.assign(new Error("locked"), { syscall: "open", code: "EBUSY", path });
    else Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, PAUSE);
  }
  try {
    return work();
  } finally {
    if (holderOf(path) === own) rmSync(path, { force: true });
  }
}

/** Creates the lock with its holder's name; false where another process holds it. */
function create(path: string, own: string): boolean {
  let file: number;
  try {
    file = openSync(path, "wx");
  } catch (failure) {
    if ((failure as NodeJS.ErrnoException).code === "EEXIST") return false;
    throw failure;
  }
  try {
    writeSync(file, own);
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

/** The name in the lock, if its process no longer runs. */
function abandonedHolder(path: string): string | undefined {
  const holder = holderOf(path);
  const found = statSync(path, { throwIfNoEntry: false });
  if (holder === undefined || found === undefined) return undefined;
  const [host = "", pid = ""] = holder.split(" ");
  const age = Date.now() - found.mtimeMs;
  const abandoned = holder === "" ? age > NAMELESS : isAbandoned(host, Number(pid), found.mtimeMs, Date.now());
  return abandoned ? holder : undefined;
}
