import { readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { expect, test } from "vitest";
import { sha256 } from "../../src/io/sha256.ts";
import { demoJobs } from "../whole/demo.ts";
import { copyJobs, headsheet, inProcess, namesIn, ROOT, scratch } from "./run.ts";

const folder = scratch();
const { version } = JSON.parse(readFileSync(join(ROOT, "package.json"), "utf8")) as { version: string };
/** A sum of the bytes of every file in a folder. */
const bytesIn = (out: string) =>
  Object.fromEntries(namesIn(out).map((name) => [name, sha256(readFileSync(join(out, name)))]));

test("bundled or not, alone or in a batch, every demo sheet has the same bytes", async () => {
  const [plain, batch, alone] = ["plain", "batch", "alone"].map((name) => join(folder, name)) as [
    string,
    string,
    string,
  ];
  const desk = join(folder, "desk");
  copyJobs(join(desk, "jobs"));
  expect((await inProcess(["make", "--out", plain], desk, undefined, undefined, version)).code).toBe(0);
  expect(headsheet(["make", "--out", batch], { cwd: desk }).code).toBe(0);
  for (const job of demoJobs)
    expect(headsheet(["make", relative(ROOT, job), "--out", alone], { cwd: desk }).code).toBe(0);
  expect(namesIn(plain).length).toBeGreaterThanOrEqual(17);
  expect(bytesIn(batch)).toEqual(bytesIn(plain));
  expect(bytesIn(alone)).toEqual(bytesIn(plain));
}, 300_000);
