import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { copyJobs, headsheet, namesIn, scratch } from "./run.ts";

const folder = scratch();
copyJobs(join(folder, "jobs"));
const job = join(folder, "jobs", "alder-lane", "2026-014.yaml");

function bytes(name: string, env: Record<string, string>): Buffer {
  const out = join(folder, name);
  expect(headsheet(["make", job, "--out", out], { env }).code).toBe(0);
  const [sheet] = namesIn(out);
  return readFileSync(join(out, sheet!));
}

test("the same job gives the same bytes in another time zone and locale", () => {
  const here = bytes("a", { TZ: "UTC", LANG: "C", LC_ALL: "C" });
  expect(here.subarray(0, 5).toString()).toBe("%PDF-");
  expect(bytes("b", { TZ: "Pacific/Auckland", LANG: "de_DE.UTF-8", LC_ALL: "de_DE.UTF-8" }).equals(here)).toBe(true);
});
