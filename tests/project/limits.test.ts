import { spawnSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { buildSync } from "esbuild";
import { describe, expect, test } from "vitest";
import { loadProject } from "../../src/project/load-project.ts";
import { inProcess, PROGRAM, ROOT, scratch } from "../cli/run.ts";
import { memoryWorld } from "./memory-world.ts";
import { SHOP, SHORT_SET } from "./shop-texts.ts";

const folder = scratch();
const JOB = "/shop/a.yaml";
const faults = (job: string, files: Record<string, string> = {}) =>
  loadProject(JOB, memoryWorld({ "/shop/shop.yaml": SHOP, [JOB]: job, ...files })).diagnostics;
const lines = (count: number, line: (index: number) => string) =>
  Array.from({ length: count }, (_, i) => line(i)).join("");
const codes = (job: string, files: Record<string, string> = {}) => [
  ...new Set(faults(job, files).map((each) => each.code)),
];

/** Each of these is said at its own place, in its own words. */
describe("more than is read", () => {
  const stages = (count: number) =>
    SHORT_SET.replace(/stages:[\s\S]*?work:/, `stages:\n${lines(count, (i) => `  - { name: S${i} }\n`)}work:`);
  test("stages", () => {
    expect(codes(stages(24))).toEqual([]);
    expect(faults(stages(25)).at(0)).toMatchObject({
      code: "project/too-many",
      message: "25 stages; at most 24 are read",
    });
  });
  test.each([
    ["compare", 12, "heads to compare with", (i: number) => `  - { job: ${i}.yaml }\n`],
    ["photos", 24, "photos", (i: number) => `  - { file: ${i}.jpg }\n`],
    ["parts", 400, "entries", (i: number) => `  - { part: p${i} }\n`],
    ["not_done", 400, "entries", (i: number) => `  - n${i}\n`],
    ["assembly", 400, "entries", (i: number) => `  k${i}: ${i} in\n`],
  ])("%s", (key, most, many, entry) => {
    const said = (count: number) => faults(`${SHORT_SET}${key}:\n${lines(count, entry)}`);
    expect(said(most).filter((each) => each.code === "project/too-many")).toEqual([]);
    expect(said(most + 1)).toMatchObject([
      { code: "project/too-many", message: `${most + 1} ${many}; at most ${most} are read` },
    ]);
  });
  test("samples", () => {
    const product = `product: { part: P-1, name: Wedge }\nissued: 2026-04-01\nsamples:\n${lines(101, (i) => `  - ${i}.yaml\n`)}`;
    expect(faults(product)).toMatchObject([{ message: "101 samples; at most 100 are read" }]);
  });
  test("runs: none of their files is opened", () => {
    const runs = (count: number) =>
      SHORT_SET.replace(
        / {4}flow: \|\n(?: {6}.*\n)+work/,
        `    runs:\n${lines(count, () => "      - { file: f.csv }\n")}work`,
      );
    const { diagnostics, filesRead } = loadProject(
      JOB,
      memoryWorld({ "/shop/shop.yaml": SHOP, [JOB]: runs(201), "/shop/f.csv": "lift,intake\n0.1,40\n" }),
    );
    expect(diagnostics.map((each) => each.message)).toEqual(["201 runs; at most 200 are read"]);
    expect(filesRead).not.toContain("/shop/f.csv");
  });
  test("readings in one table, and in all", () => {
    const table = (count: number) =>
      `lift,intake\n${lines(count, (i) => `${(0.01 + i / 1000).toFixed(3)},${40 + i / 10}\n`)}`;
    const job = (runs: number) =>
      SHORT_SET.replace(
        / {4}flow: \|\n(?: {6}.*\n)+work/,
        `    runs:\n${lines(runs, (i) => `      - { cylinder: ${i + 1}, file: f.csv }\n`)}work`,
      );
    const one = faults(job(1), { "/shop/f.csv": table(401) });
    expect(one).toMatchObject([
      { message: "401 readings in one table; at most 400 are read", at: { file: "/shop/f.csv" } },
    ]);
    const all = faults(job(21), { "/shop/f.csv": table(400) });
    expect(all).toMatchObject([{ code: "project/too-many-readings", message: "more than 8000 readings in one job" }]);
    expect(codes(job(19), { "/shop/f.csv": table(400) })).toEqual([]);
  });
  test("keys, values and marks", () =>
    expect(codes(`${SHORT_SET}${lines(20_001, (i) => `k${i}: v\n`)}`)).toEqual(["source/too-many-values"]));
  test("depth", () =>
    expect(codes(`${SHORT_SET}internal: ${"[".repeat(40)}${"]".repeat(40)}\n`)).toEqual(["source/too-deep"]));
  test("bytes", () => expect(codes(`${SHORT_SET}remarks: ${"x".repeat(256 * 1024)}\n`)).toEqual(["project/too-large"]));
  test("pages", async () => {
    await inProcess(["new", "a.yaml"], folder);
    const long = `remarks: |\n${lines(2200, () => `  ${"long words of a long day ".repeat(4)}\n`)}`;
    writeFileSync(join(folder, "long.yaml"), readFileSync(join(folder, "a.yaml"), "utf8") + long);
    const { code, err, out } = await inProcess(["make", "long.yaml"], folder);
    expect([code, out]).toEqual([1, ""]);
    expect(err).toMatch(/sheet\/too-many-pages.*would have \d+ pages; at most 40 are made/);
  });
});

/** The most memory a process of its own ever took [kB]; what Node counts itself includes the process that started it. */
const PEAK = `+process.getBuiltinModule("node:fs").readFileSync("/proc/self/status","utf8").match(/VmHWM:\\s+(\\d+)/)[1]`;

/** Nine of nine of nine …: a kilobyte that stands for ten thousand million values. */
const LAUGHS = `job: "1"\na: &a [${Array(9).fill("lol").join(", ")}]\n${[..."abcdefghi"]
  .map((name, i) => `${"bcdefghij"[i]}: &${"bcdefghij"[i]} [${Array(9).fill(`*${name}`).join(", ")}]\n`)
  .join("")}`;

describe("a billion laughs", () => {
  test("are refused where they begin, within 200 MB, by a process of its own", () => {
    const file = join(folder, "laughs.yaml");
    writeFileSync(file, LAUGHS);
    const reader = join(folder, "read-yaml.cjs");
    const source = join(ROOT, "src", "parse", "yaml", "parse-yaml.ts");
    buildSync({ entryPoints: [source], outfile: reader, bundle: true, platform: "node", format: "cjs" });
    const script = `
      const { parseYaml } = await import(${JSON.stringify(reader)});
      const text = (await import("node:fs")).readFileSync(${JSON.stringify(file)}, "utf8");
      const { diagnostics } = parseYaml("laughs.yaml", text);
      console.log(JSON.stringify({ kB: ${PEAK}, codes: diagnostics.map((one) => one.code) }));`;
    const { stdout, stderr } = spawnSync(process.execPath, ["--input-type=module", "-e", script], { encoding: "utf8" });
    expect(stderr).toBe("");
    const { kB, codes } = JSON.parse(stdout);
    expect(new Set(codes)).toEqual(new Set(["source/anchor", "source/alias"]));
    expect(kB).toBeLessThan(200 * 1024);
  });
  test("the program as a whole refuses them within 200 MB", () => {
    const report = `data:text/javascript,process.on('exit',()=>process.stdout.write(String(${PEAK})))`;
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      ["--import", report, PROGRAM, "check", join(folder, "laughs.yaml")],
      { encoding: "utf8" },
    );
    expect(status).toBe(1);
    expect(stderr).toContain("source/alias");
    expect(Number(stdout)).toBeLessThan(200 * 1024);
  });
});
