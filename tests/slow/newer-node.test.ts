import { spawnSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { copyJobs, headsheet, namesIn, ROOT, scratch } from "../cli/run.ts";

const folder = scratch();

/** A plain Node binary from the registry, in a folder of its own. */
function newerNode(version: string): string {
  writeFileSync(join(folder, "package.json"), "{}");
  const name = `node-linux-${process.arch}`;
  const { status, stderr } = spawnSync(
    "npm",
    ["install", "--no-save", "--silent", "--prefix", folder, `${name}@${version}`],
    { encoding: "utf8" },
  );
  expect(stderr, stderr).not.toContain("npm error");
  expect(status).toBe(0);
  return join(folder, "node_modules", name, "bin", "node");
}

const nodes = new Map<string, string>();

test.each(["22", "24"])(
  "Node %s makes the same bytes",
  (version) => {
    const node = newerNode(version);
    nodes.set(version, node);
    expect(spawnSync(node, ["--version"], { encoding: "utf8" }).stdout).toMatch(new RegExp(`^v${version}\\.`));
    const here = join(folder, `here-${version}`);
    const there = join(folder, `there-${version}`);
    const cwd = join(folder, `desk-${version}`);
    copyJobs(join(cwd, "jobs"));
    expect(headsheet(["make", "--out", here], { cwd }).code).toBe(0);
    expect(headsheet(["make", "--out", there], { cwd, node }).code).toBe(0);
    const sheets = namesIn(here);
    expect(sheets.length).toBeGreaterThanOrEqual(10);
    expect(namesIn(there)).toEqual(sheets);
    for (const sheet of sheets)
      expect([sheet, readFileSync(join(there, sheet)).equals(readFileSync(join(here, sheet)))]).toEqual([sheet, true]);
  },
  300_000,
);

test("Node 24 passes the quick tests", () => {
  const vitest = join(ROOT, "node_modules", "vitest", "vitest.mjs");
  const suite = spawnSync(nodes.get("24")!, [vitest, "run", "--config=tests/vitest.config.ts", "--silent"], {
    cwd: ROOT,
    encoding: "utf8",
    maxBuffer: 1 << 28,
  });
  expect(suite.status, `${suite.stdout}\n${suite.stderr}`).toBe(0);
}, 900_000);
