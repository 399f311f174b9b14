import { spawn } from "node:child_process";
import { mkdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
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
