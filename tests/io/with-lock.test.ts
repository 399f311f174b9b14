import { existsSync, readFileSync, statSync, utimesSync, writeFileSync } from "node:fs";
import { hostname } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { appendLines } from "../../src/io/append-lines.ts";
import { describeSystemError, isSystemError } from "../../src/io/system-errors.ts";
import { withLock } from "../../src/io/with-lock.ts";
import { scratch } from "../cli/run.ts";

const folder = scratch();
const HOST = hostname().replace(/[^A-Za-z0-9]+/g, "-");
/** Higher than any process number that Linux gives (kernel: PID_MAX_LIMIT is 2 to the 22nd). */
const NOBODY = 2 ** 22 + 1;

test("the lock stands while the work is done, and goes with it, also where it throws", () => {
  const lock = join(folder, "a.lock");
  expect(withLock(lock, () => readFileSync(lock, "utf8"))).toContain(`${HOST} ${process.pid} `);
  expect(() =>
    withLock(lock, () => {
      throw new Error("work");
    }),
  ).toThrow("work");
  expect(existsSync(lock)).toBe(false);
});

test("the lock of a killed process is removed, so is that of a killed remover, and one without a name", () => {
  const lock = join(folder, "b.lock");
  writeFileSync(lock, `${HOST} ${NOBODY} x`);
  writeFileSync(`${lock}-`, `${HOST} ${NOBODY} y`);
  expect(withLock(lock, () => "done")).toBe("done");
  writeFileSync(lock, "");
  utimesSync(lock, new Date(0), new Date(0));
  expect(withLock(lock, () => "done")).toBe("done");
  expect([existsSync(lock), existsSync(`${lock}-`)]).toEqual([false, false]);
});

test("of another host's lock only the age counts: one of a minute is removed, a younger one is named with what to do", () => {
  const lock = join(folder, "c.lock");
  writeFileSync(lock, "elsewhere 1 x");
  let failure: unknown;
  try {
    withLock(lock, () => "done", 20);
  } catch (error) {
    failure = error;
  }
  expect(isSystemError(failure) && describeSystemError(failure)).toBe(
    `another run of headsheet holds this lock; if none is running, the file may be deleted: \`${lock}\``,
  );
  const old = new Date(statSync(lock).mtimeMs - 61_000);
  utimesSync(lock, old, old);
  expect(withLock(lock, () => "done")).toBe("done");
  expect(existsSync(lock)).toBe(false);
});

test("lines are appended whole, and a last line without its end is ended first", () => {
  const path = join(folder, "lines");
  appendLines(path, "a\n");
  writeFileSync(path, "a\nb");
  appendLines(path, "c\nd\n");
  expect(readFileSync(path, "utf8")).toBe("a\nb\nc\nd\n");
});
