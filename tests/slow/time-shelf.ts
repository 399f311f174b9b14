import { readdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { expect } from "vitest";
import { writeArchive } from "../archive/write-archive.ts";
import { headsheet } from "../cli/run.ts";

/** Lists an archive without a cache, by the cache, and with one job taken away; each must tell the same. Times in seconds. */
export function timeShelf(cwd: string, jobs: number) {
  const timed = () => {
    const start = performance.now();
    const { out } = headsheet(["shelf", "--json"], { cwd });
    return { out, seconds: (performance.now() - start) / 1000 };
  };
  writeArchive(join(cwd, "jobs"), jobs);
  const cold = timed();
  // The shortest of five: other work only adds.
  const warm = [1, 2, 3, 4, 5].map(timed).reduce((a, b) => (b.seconds < a.seconds ? b : a));
  expect(JSON.parse(cold.out).jobs).toHaveLength(jobs);
  expect(warm.out).toBe(cold.out);
  // Not the folder of the cache.
  const year = readdirSync(join(cwd, "jobs")).find((name) => /^\d/.test(name))!;
  const [first] = readdirSync(join(cwd, "jobs", year));
  rmSync(join(cwd, "jobs", year, first!));
  const less = timed();
  expect(JSON.parse(less.out).jobs).toHaveLength(jobs - 1);
  console.log(
    `cold ${cold.seconds.toFixed(1)} s, by the cache ${warm.seconds.toFixed(1)} s, one taken away ${less.seconds.toFixed(1)} s`,
  );
  return { cold: cold.seconds, warm: warm.seconds };
}
