import { spawn } from "node:child_process";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect } from "vitest";
import { starterJob } from "../../src/job/starter/starter.ts";
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

const JOBS = ["a", "b"] as const;
const READINGS = "lift intake exhaust\n0.1 43.0 34.1\n0.2 85.2 65.3\n0.3 121.4 85.8\n";
const LINE = /^\d{4}-\d\d-\d\d,[ab]\d+,1,(handover|card),[\w.-]+,[a-z]{12},\d+$/;

/** The lines of the register of a desk; each must be whole, and none there twice. */
function registerOf(cwd: string): readonly string[] {
  const path = join(cwd, "jobs", "issued.csv");
  if (!existsSync(path)) return [];
  const [, ...lines] = readFileSync(path, "utf8").split("\n");
  expect(lines.pop()).toBe("");
  for (const line of lines) expect(line).toMatch(LINE);
  expect(new Set(lines).size).toBe(lines.length);
  return lines;
}

/** Every sheet and card is whole and in the register; says how many temporary files lie about. */
function checkSheets(cwd: string, lines: readonly string[]): number {
  const all = [...contents(join(cwd, "out"))];
  const files = all.filter(([name]) => !name.endsWith(".tmp"));
  for (const [name, bytes] of files) {
    const end = Buffer.from(bytes, "base64").subarray(-12).toString("latin1");
    expect([name, end]).toEqual([name, expect.stringMatching(name.endsWith(".pdf") ? /%%EOF\s*$/ : /IEND/)]);
    expect([name, lines.filter((line) => line.includes(`,${name},`)).length]).toEqual([name, 1]);
  }
  return all.length - files.length;
}

/**
 * Kills `make` of two jobs, `card` and `take` again and again, at moments spread over the whole of their run; every third time
 * the jobs are others. After each kill every sheet is whole and registered, no line of the register is lost or there twice, and
 * a job is what it was or what `take` makes of it. After the last, one run leaves what an undisturbed one leaves.
 */
export async function killMany(
  cwd: string,
  kills: number,
): Promise<{ readonly killed: number; readonly lines: number; readonly litter: number }> {
  mkdirSync(join(cwd, "jobs"), { recursive: true });
  writeFileSync(join(cwd, "bench.txt"), READINGS);
  const path = (job: string) => join(cwd, "jobs", `${job}.yaml`);
  const put = (series: number) => {
    for (const job of JOBS) {
      const text = starterJob({ number: `${job}${series}`, issued: "2026-03-14" });
      writeFileSync(path(job), text.replace(/^draft: true.*\n/m, ""));
    }
  };
  const commands = [
    ["make", "--force"],
    ["card", "jobs/a.yaml"],
    ["take", "bench.txt", "--into", "jobs/b.yaml", "--stage", "Finished", "--replace"],
  ];
  const times = [0, 0, 0];
  const random = seeded(kills);
  let [killed, litter, lines] = [0, 0, [] as readonly string[]];
  put(0);
  const taken = () => headsheet([...commands[2]!, "--dry-run"], { cwd }).out;
  for (let attempt = 0; killed < kills && attempt < 6 * kills; attempt++) {
    const which = attempt % 3;
    if (which === 0) put(attempt);
    const before = JOBS.map((job) => readFileSync(path(job), "utf8"));
    // Nothing is written while the program starts: three of four kills fall into its second half.
    const share = random() < 0.25 ? random() : 0.5 + 0.5 * random();
    const began = performance.now();
    const died = await killAfter(commands[which]!, cwd, times[which] === 0 ? 60_000 : share * times[which]!);
    const took = performance.now() - began;
    if (died) killed++;
    // How long a run takes changes with what else the machine does: the guess follows.
    times[which] = died ? times[which]! * 1.05 : times[which] === 0 ? took : Math.min(times[which]!, took);
    const now = registerOf(cwd);
    expect(now.slice(0, lines.length)).toEqual(lines);
    lines = now;
    litter += checkSheets(cwd, lines);
    const after = JOBS.map((job) => readFileSync(path(job), "utf8"));
    expect(after[0]).toBe(before[0]);
    // A kill between the new text and the end of its save leaves the former text beside the job.
    for (const name of readdirSync(join(cwd, "jobs")).filter((one) => one.startsWith("b.yaml.other-version-"))) {
      expect(readFileSync(join(cwd, "jobs", name), "utf8")).toBe(before[1]);
      rmSync(join(cwd, "jobs", name));
    }
    if (after[1] !== before[1]) expect([which, after[1]]).toEqual([2, expect.stringContaining(taken().trimEnd())]);
  }
  put(1_000_000);
  expect(headsheet(["make"], { cwd }).code).toBe(0);
  expect(registerOf(cwd)).toHaveLength(lines.length + 2);
  expect(headsheet(["make", "--out", "alone"], { cwd }).code).toBe(0);
  expect(registerOf(cwd)).toHaveLength(lines.length + 2);
  const out = contents(join(cwd, "out"));
  for (const [name, bytes] of contents(join(cwd, "alone"))) expect(out.get(name) === bytes).toBe(true);
  expect([...out.keys()].filter((name) => name.endsWith(".tmp"))).toEqual([]);
  expect(readdirSync(join(cwd, "jobs")).toSorted()).toEqual(["a.yaml", "b.yaml", "issued.csv"]);
  return { killed, lines: lines.length, litter };
}
