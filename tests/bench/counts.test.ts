import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { View } from "vega";
import { afterEach, expect, test, vi } from "vitest";
import { disk } from "../../src/io/disk.ts";
import type { Io } from "../../src/io/io.ts";
import { openFonts } from "../../src/pdf/font/fonts.ts";
import { inProcess, scratch } from "../cli/run.ts";
import { jobText, SHOP } from "./job-text.ts";

// No clock: counts of work for a batch, so that what is opened, parsed or built once for all cannot become once for each.
afterEach(() => vi.restoreAllMocks());

const folder = scratch();
const JOBS = 50;
const PAGE = "template: page\nrows:\n  - masthead\n  - title\n  - { block: flow-chart, height: 112 }\n";

/** The disk, counting what is read of it by the end of its name. */
function counting(): { io: Io; reads: (end: RegExp) => number } {
  const paths: string[] = [];
  const io: Io = {
    ...disk,
    readFile: (path, largest) => {
      paths.push(path);
      return disk.readFile(path, largest);
    },
    readTextFile: (path) => {
      paths.push(path);
      return disk.readTextFile(path);
    },
  };
  return { io, reads: (end) => paths.filter((path) => end.test(path)).length };
}

test("a batch of fifty opens its fonts once, builds a view a shape, and reads each job no oftener than it must", async () => {
  const jobs = join(folder, "jobs");
  mkdirSync(join(jobs, "templates"), { recursive: true });
  writeFileSync(join(jobs, "shop.yaml"), SHOP);
  writeFileSync(join(jobs, "templates", "page.yaml"), PAGE);
  for (let number = 1; number <= JOBS; number++)
    writeFileSync(join(jobs, `b-${number}.yaml`), jobText(number, { lifts: 3, stages: 1 }));
  const { io, reads } = counting();
  const views = new Set<unknown>();
  const run = View.prototype.run;
  vi.spyOn(View.prototype, "run").mockImplementation(function (this: View, ...args) {
    views.add(this);
    return run.apply(this, args);
  });

  const { code, err } = await inProcess(["make", "jobs"], folder, io);
  expect([code, err.trim().split("\n").at(-1)]).toEqual([0, `${JOBS} sheets written`]);

  // Regular and semibold: nothing on a handover is medium.
  expect(reads(/\.ttf$/)).toBe(2);
  expect(reads(/shaping\.json$/)).toBe(1);
  expect(views.size).toBe(1);
  // To be found, and to be made.
  expect(reads(/b-\d+\.yaml$/)).toBeLessThanOrEqual(2 * JOBS);
  expect(reads(/shapes\.json$/)).toBe(1);
  expect(reads(/page\.yaml$/)).toBeLessThanOrEqual(JOBS + 1);
  expect(reads(/./)).toBeLessThan(7 * JOBS);
});

test("a word is shaped once, for measuring and for every page that it is painted on", () => {
  const { faces, measure } = openFonts();
  const shaped = faces.regular.shape("valve ");
  measure.width("valve seat", "regular", 9);
  expect(faces.regular.shape("valve ")).toBe(shaped);
});
