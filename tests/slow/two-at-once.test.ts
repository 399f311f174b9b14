import { spawn } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { starterJob } from "../../src/job/starter/starter.ts";
import { headsheet, namesIn, PROGRAM, scratch } from "../cli/run.ts";

const folder = scratch();
const contents = (path: string) => namesIn(path).map((name) => [name, readFileSync(join(path, name), "base64")]);

test("makes that run at once end with the same files and bytes as one", async () => {
  const cwd = join(folder, "desk");
  mkdirSync(cwd);
  for (const job of ["a", "b"]) expect(headsheet(["new", `jobs/${job}.yaml`], { cwd }).code).toBe(0);
  expect(headsheet(["make", "--out", "alone"], { cwd }).code).toBe(0);
  const run = () =>
    new Promise<number | null>((resolve) => {
      spawn(process.execPath, [PROGRAM, "make", "--force"], { cwd, stdio: "ignore" }).on("exit", resolve);
    });
  for (let round = 0; round < 3; round++) {
    expect(await Promise.all([run(), run()])).toEqual([0, 0]);
    expect(contents(join(cwd, "out"))).toEqual(contents(join(cwd, "alone")));
  }
});

const issued = (number: string) => starterJob({ number, issued: "2026-03-14" }).replace(/^draft: true.*\n/m, "");
const start = (cwd: string, ...args: string[]) =>
  new Promise<number | null>((resolve) => {
    spawn(process.execPath, [PROGRAM, ...args], { cwd, stdio: "ignore" }).on("exit", resolve);
  });

test("runs at once over one register lose no line and double none", async () => {
  const cwd = join(folder, "register");
  mkdirSync(join(cwd, "jobs"), { recursive: true });
  for (const job of ["a", "b", "c"]) writeFileSync(join(cwd, "jobs", `${job}.yaml`), issued(job));
  const runs = [["make"], ["make"], ["make", "jobs/c.yaml"], ["card", "jobs/a.yaml"], ["card", "jobs/a.yaml"]];
  expect(await Promise.all(runs.map((args) => start(cwd, ...args)))).toEqual(runs.map(() => 0));
  const [, ...lines] = readFileSync(join(cwd, "jobs/issued.csv"), "utf8").trimEnd().split("\n");
  const sheets = lines.map((line) => line.split(",").slice(1, 4).join(" "));
  expect(sheets.toSorted()).toEqual(["a 1 card", "a 1 handover", "b 1 handover", "c 1 handover"]);
  expect(readdirSync(join(cwd, "jobs")).toSorted()).toEqual(["a.yaml", "b.yaml", "c.yaml", "issued.csv"]);
});

test("of two jobs under one ticket that are made at once, one is issued and the other refused", async () => {
  const cwd = join(folder, "one-ticket");
  mkdirSync(join(cwd, "jobs"), { recursive: true });
  writeFileSync(join(cwd, "jobs/a.yaml"), issued("a"));
  writeFileSync(join(cwd, "jobs/b.yaml"), issued("a").replace("158.1", "159.1"));
  for (let round = 0; round < 3; round++) {
    writeFileSync(join(cwd, "jobs/issued.csv"), "");
    const codes = ["a", "b"].map((job) => start(cwd, "make", `jobs/${job}.yaml`, "--out", `${job}${round}`));
    expect((await Promise.all(codes)).toSorted()).toEqual([0, 1]);
    expect(readFileSync(join(cwd, "jobs/issued.csv"), "utf8").trimEnd().split("\n")).toHaveLength(2);
  }
});
