import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { createJobFile, isNewJob } from "../../../src/commands/watch/new-job-file.ts";
import { inProcess, quietWorld, scratch } from "../../cli/run.ts";

const folder = scratch();
mkdirSync(join(folder, "jobs"), { recursive: true });
const asked = { ticket: "2026-050", customer: "H. Ashgrove: son", head: "Two-valve four #2", issued: "2026-03-18" };
const create = (more: object = {}) => createJobFile({ ...asked, ...more }, "jobs/1.yaml", quietWorld(folder));

test("what no shop states is asked for; then the job is written, and passes check", async () => {
  expect(create()).toEqual({ kind: "ask", units: true, pressure: true });
  expect(readdirSync(join(folder, "jobs"))).toEqual([]);
  expect(create({ units: "in, cfm", pressure: "28" })).toEqual({ kind: "made", path: "jobs/2026-050.yaml" });
  expect(readFileSync(join(folder, "jobs", "2026-050.yaml"), "utf8")).toContain(
    'customer: { name: "H. Ashgrove: son" }',
  );
  expect(await inProcess(["check", "jobs/2026-050.yaml"], folder)).toMatchObject({ code: 0 });
});

test("a shop's units and pressure are not written again; a file is never written over", () => {
  writeFileSync(
    join(folder, "jobs", "shop.yaml"),
    "units: { length: in, flow: cfm, pressure: inH2O }\nbench: { test_pressure: 25 }\n",
  );
  expect(create({ ticket: "2026-051" })).toEqual({ kind: "made", path: "jobs/2026-051.yaml" });
  const text = readFileSync(join(folder, "jobs", "2026-051.yaml"), "utf8");
  expect(text).not.toMatch(/units|bench/);
  expect(create({ ticket: "2026-051", head: "Another" })).toMatchObject({ kind: "refused" });
  expect(readFileSync(join(folder, "jobs", "2026-051.yaml"), "utf8")).toBe(text);
});

test("a ticket leads to no other folder or file", () => {
  const before = readdirSync(join(folder, "jobs"));
  for (const ticket of ["../x", "a/b", "..", ".hidden", "shop", "a\\b", "a\0b", "a\nb", " ", "x".repeat(61), "C:x"])
    expect(create({ ticket })).toMatchObject({ kind: "refused" });
  expect(create({ ticket: "2026-052", pressure: "28 }\ninternal: x" })).toMatchObject({ kind: "refused" });
  expect(create({ ticket: "2026-052", issued: "2026-03-18\nx: y" })).toMatchObject({ kind: "refused" });
  expect(readdirSync(join(folder, "jobs"))).toEqual(before);
});

test("only whole requests are taken", () => {
  expect(isNewJob(asked)).toBe(true);
  for (const more of [{ ticket: 1 }, { head: "" }, { units: "toString" }, { customer: "x".repeat(201) }])
    expect(isNewJob({ ...asked, ...more })).toBe(false);
});
