import { spawn } from "node:child_process";
import { existsSync, mkdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect } from "vitest";
import { headsheet, namesIn, PROGRAM } from "../cli/run.ts";

/** A source of numbers from 0 to 1 that is the same each time (mulberry32). */
export function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** Runs the program and kills it (-9) after so many ms; whether it was killed. */
function killAfter(args: readonly string[], cwd: string, ms: number): Promise<boolean> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [PROGRAM, ...args], { cwd, stdio: "ignore" });
    const timer = setTimeout(() => child.kill("SIGKILL"), ms);
    child.on("exit", (_, signal) => {
      clearTimeout(timer);
      resolve(signal === "SIGKILL");
    });
  });
}

const contents = (folder: string) =>
  new Map(
    existsSync(folder)
      ? namesIn(folder).map((name) => [name, readFileSync(join(folder, name)).toString("base64")])
      : [],
  );

/**
 * Kills `make` of two jobs again and again, at moments spread over the whole of its run, while the jobs change under it.
 * After each kill every sheet is one of the two whole ones that it can be and every job is what it was; after the last, one
 * run leaves the same files and bytes as if nothing had happened, and nothing else. Says how many runs died in time.
 */
export async function killMany(
  cwd: string,
  kills: number,
): Promise<{ readonly killed: number; readonly litter: number }> {
  mkdirSync(cwd, { recursive: true });
  const jobs = ["a", "b"];
  for (const job of jobs) expect(headsheet(["new", `jobs/${job}.yaml`], { cwd }).code).toBe(0);
  const before = contents(join(cwd, "jobs"));
  // Two papers, each with known complete sheets.
  const papers = ["A4", "Letter"];
  const whole = papers.map((paper) => {
    expect(headsheet(["make", "--paper", paper, "--out", paper], { cwd }).code).toBe(0);
    return contents(join(cwd, paper));
  });
  const start = performance.now();
  expect(headsheet(["make", "--out", "timed"], { cwd }).code).toBe(0);
  let run = performance.now() - start;

  const random = seeded(kills);
  let killed = 0;
  let litter = 0;
  for (let attempt = 0; killed < kills && attempt < 6 * kills; attempt++) {
    const paper = papers[attempt % 2] as string;
    // Nothing is written while the program starts: three of four kills fall into its second half.
    const share = random() < 0.25 ? random() : 0.5 + 0.5 * random();
    const began = performance.now();
    const died = await killAfter(["make", "--force", "--paper", paper], cwd, share * run);
    if (died) killed++;
    // How long a run takes changes with what else the machine does: the guess follows.
    run = died ? run * 1.05 : Math.min(run, performance.now() - began);
    for (const [name, bytes] of contents(join(cwd, "out"))) {
      if (name.endsWith(".tmp")) litter++;
      else expect([name, whole.some((sheets) => sheets.get(name) === bytes)]).toEqual([name, true]);
    }
    expect(contents(join(cwd, "jobs"))).toEqual(before);
  }
  expect(headsheet(["make", "--paper", "A4"], { cwd }).code).toBe(0);
  expect(contents(join(cwd, "out"))).toEqual(whole[0]);
  return { killed, litter };
}
