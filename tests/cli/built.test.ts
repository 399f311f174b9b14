import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { readableStack } from "../../src/commands/readable-stack.ts";
import { copyJobs, headsheet, inProcess, ROOT, scratch } from "./run.ts";

const folder = scratch();
const read = (path: string) => readFileSync(path, "utf8");
/** Row and column of a text's first letter, as a trace counts them. */
const placeOf = (text: string, wanted: string) => {
  const before = text.slice(0, text.indexOf(wanted)).split("\n");
  return `${before.length}:${before.at(-1)!.length + 1}`;
};

test("a trace of the built program names our own files and lines", () => {
  const wanted = `"error: headsheet itself failed`;
  const script = join(ROOT, "dist", "cli.cjs");
  const trace = ["Error: odd", `    at formatFailure (${script}:${placeOf(read(script), wanted)})`];
  const line = placeOf(read(join(ROOT, "src", "cli", "main.ts")), wanted).split(":")[0];
  expect(readableStack(trace, read)).toEqual([
    "Error: odd",
    expect.stringMatching(new RegExp(`at formatFailure \\(src/cli/main.ts:${line}:\\d+\\)`)),
  ]);
});

test("a trace without maps stays as it is", () => {
  const trace = ["Error: odd", "    at x (/nowhere/a.cjs:1:2)", "    at node:internal/x:1:2"];
  expect(readableStack(trace, read)).toEqual(trace);
});

test("the built program makes the bytes that the sources make, byte for byte", async () => {
  copyJobs(join(folder, "jobs"));
  const job = join(folder, "jobs", "alder-lane", "2026-026.yaml");
  const [built, again] = [join(folder, "built"), join(folder, "again")];
  expect(headsheet(["make", job, "--out", built]).code).toBe(0);
  const { version } = JSON.parse(read(join(ROOT, "package.json"))) as { version: string };
  expect((await inProcess(["make", job, "--out", again], ROOT, undefined, "", version)).code).toBe(0);
  const names = readdirSync(again).filter((name) => name.endsWith(".pdf"));
  expect(names).toHaveLength(1);
  for (const name of names)
    expect([name, readFileSync(join(again, name)).equals(readFileSync(join(built, name)))]).toEqual([name, true]);
});
