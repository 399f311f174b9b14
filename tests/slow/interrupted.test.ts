import { spawn } from "node:child_process";
import { mkdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { archive } from "../archive/archive.ts";
import { writeArchive } from "../archive/write-archive.ts";
import { headsheet, namesIn, PROGRAM, scratch } from "../cli/run.ts";

const folder = scratch();
/** Among so many jobs of the archive none is broken. */
const JOBS = 11;
/** Number of printed sheets at which the batch is stopped. */
const TOLD = 4;

/** Runs `make` and signals it after that many printed sheets; returns the number printed in all and the exit. */
const stoppedBy = (signal: NodeJS.Signals, cwd: string) =>
  new Promise<{ readonly told: number; readonly ended: NodeJS.Signals | number | null }>((resolve) => {
    const child = spawn(process.execPath, [PROGRAM, "make"], { cwd, stdio: ["ignore", "pipe", "ignore"] });
    let out = "";
    child.stdout.on("data", (part) => {
      out += part;
      if (told(out) >= TOLD) child.kill(signal);
    });
    child.on("close", (code, by) => resolve({ told: told(out), ended: by ?? code }));
  });
const told = (out: string) => out.split("\n").length - 1;
const contents = (path: string) => namesIn(path).map((name) => [name, readFileSync(join(path, name), "base64")]);
const times = (path: string) => new Map(namesIn(path).map((name) => [name, statSync(join(path, name)).mtimeMs]));

test.each<NodeJS.Signals>(["SIGINT", "SIGKILL"])("a batch stopped by %s goes on where it stopped", async (signal) => {
  const cwd = join(folder, signal);
  mkdirSync(cwd);
  expect(Object.keys(archive(JOBS))).toHaveLength(JOBS + 1);
  writeArchive(join(cwd, "jobs"), JOBS);
  expect(headsheet(["make", "--out", "whole"], { cwd })).toMatchObject({ code: 0 });
  const whole = contents(join(cwd, "whole"));
  expect(whole).toHaveLength(JOBS);

  const first = await stoppedBy(signal, cwd);
  expect(first.ended).toBe(signal);
  expect(first.told).toBeLessThan(JOBS);
  const before = times(join(cwd, "out"));

  const { code, err } = headsheet(["make"], { cwd });
  expect(code).toBe(0);
  const [, made, kept] = /^(\d+) sheets? written, (\d+) unchanged$/m.exec(err)!.map(Number) as [number, number, number];
  process.stdout.write(`${signal}: stopped with ${first.told} of ${JOBS} told; then ${made} made, ${kept} unchanged\n`);
  expect(made + kept).toBe(JOBS);
  // A sheet is recorded right after its path is printed: the last one may be missing from the record.
  expect(kept).toBeGreaterThanOrEqual(first.told - 1);
  const after = times(join(cwd, "out"));
  expect([...before].filter(([name, at]) => after.get(name) === at).length).toBeGreaterThanOrEqual(kept);
  expect(contents(join(cwd, "out"))).toEqual(whole);
});
