import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { copyJobs, headsheet, namesIn, scratch } from "../cli/run.ts";
import { installNode } from "./install-node.ts";

const folder = scratch();

test.each(["22", "24"])(
  "Node %s makes the same bytes",
  (version) => {
    const node = installNode(folder, version);
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
