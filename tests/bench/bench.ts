import { spawnSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { cpus } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { compileShapes } from "../../src/charts/compile-shapes.ts";
import { openShapes } from "../../src/charts/scenegraph.ts";
import { disk } from "../../src/io/disk.ts";
import { openFonts } from "../../src/pdf/font/fonts.ts";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { type Resources, renderSheet } from "../../src/pipeline/render-sheet.ts";
import { createLoadCache } from "../../src/project/load-cache.ts";
import { createDownscale } from "../../src/raster/fit-photo.ts";
import { writeContent } from "./content-file.ts";
import type { Much } from "./job-text.ts";
import { exponent, inTurn, median, once, warm } from "./measure.ts";
import { FOLDER, shopWith } from "./shop-with.ts";
import { timed } from "./stages.ts";
import type { Warm } from "./warm-one.ts";

const PROGRAM = "bin/headsheet.js";
const round = (value: number) => Math.round(value * 100) / 100;
const say = (line: string) => process.stdout.write(`${line}\n`);

/** All numbers of DEVELOPERS.md's "Speed", side by side in one run. */
export async function bench(root: string, args: readonly string[]): Promise<void> {
  const { values } = parseArgs({ args: [...args], options: { jobs: { type: "string" }, quick: { type: "boolean" } } });
  const [runs, most] = values.quick ? [3, 100] : [9, Number(values.jobs ?? 1000)];
  const job = shopWith("one", 1);
  const kit: Resources = {
    io: disk,
    fonts: openFonts(),
    shapes: openShapes(compileShapes()),
    downscale: createDownscale(),
    templates: join(root, "templates"),
    cache: createLoadCache(),
    version: "bench",
  };
  const { content } = await timed(job, kit);
  if (content.pages.length !== 1) throw new Error(`the page of the bench takes ${content.pages.length} pages`);
  writeContent(content);
  say(`Node ${process.version}, ${cpus()[0]?.model.trim()} × ${cpus().length}`);

  const cold = inTurn(
    {
      "node -e 0": ["-e", "0"],
      "headsheet --help": [PROGRAM, "--help"],
      headsheet: [PROGRAM, "make", job, "--force", "--out", `${FOLDER}/made`],
      "PDFKit floor": [`${FOLDER}/cold-floor.mjs`],
      pdfmake: [`${FOLDER}/cold-pdfmake.mjs`],
      "react-pdf": [`${FOLDER}/cold-react.mjs`],
    },
    runs,
  );
  say("\na process each, median            CPU ms  wall ms  peak MB  ÷ floor (CPU)");
  for (const [name, { cpu, wall, rss }] of Object.entries(cold))
    say(line(name, [cpu, wall, rss, cpu / cold["PDFKit floor"]!.cpu]));
  say(line("--help ÷ node", [cold["headsheet --help"]!.cpu / cold["node -e 0"]!.cpu]));

  const warmed = warmInTurn(Object.keys(cold).slice(2), values.quick ? 1 : 3, values.quick ? 60 : 150);
  say("\nwarm, a page of many, median        CPU ms  wall ms        kB  ÷ floor (CPU)  ÷ floor (wall)");
  const floor = warmed["PDFKit floor"]!;
  for (const [name, { cpu, wall, kB }] of Object.entries(warmed))
    say(line(name, [cpu, wall, kB, cpu / floor.cpu, wall / floor.wall]));
  say("\nwhere a warm page's time goes, median of the clock [ms]");
  for (const [stage, ms] of Object.entries(warmed.headsheet!.stages!)) say(line(stage, [ms]));

  say("\na batch of different jobs, one process       CPU ms  wall ms  peak MB  sheets/s (CPU)");
  const batches: Record<string, number[]> = {};
  const start = cold["headsheet --help"]!.cpu;
  const jobsGrowth: [number, number][] = [];
  for (const count of [10, 100, 1000, 10_000].filter((each) => each <= most)) {
    const folder = join(shopWith(`batch-${count}`, count), "..");
    const made = once([PROGRAM, "make", folder, "--out", `${FOLDER}/out-${count}`]);
    const again = once([PROGRAM, "make", folder, "--out", `${FOLDER}/out-${count}`]);
    batches[count] = [made.cpu, made.wall, made.rss, again.cpu, again.wall];
    jobsGrowth.push([count, made.cpu - start]);
    say(line(`${count} jobs`, [made.cpu, made.wall, made.rss, count / (made.cpu / 1000)]));
    say(line(`${count} jobs, unchanged`, [again.cpu, again.wall, again.rss, count / (again.cpu / 1000)]));
  }

  const growth = {
    jobs: exponent(jobsGrowth.slice(-2)),
    lifts: exponent(await costs([5, 10, 20, 50, 100, 200], (lifts) => ({ lifts, stages: 2 }), kit)),
    stages: exponent(await costs([1, 2, 5, 10, 20], (stages) => ({ lifts: 10, stages }), kit)),
  };
  say("\nexponent of growth (1: in proportion; below it there is a cost that stays)");
  for (const [what, power] of Object.entries(growth)) say(line(what, [power]));

  writeFileSync(
    `${FOLDER}/bench.json`,
    JSON.stringify({ node: process.version, cold, warm: warmed, batches, growth }, null, 2),
  );
}

/** What a warm sheet costs by how much its job holds. */
async function costs(sizes: readonly number[], muchOf: (size: number) => Much, kit: Resources) {
  const works = sizes.map((size) => {
    const job = shopWith(`growth-${JSON.stringify(muchOf(size)).replace(/\W+/g, "-")}`, 1, muchOf(size));
    const work = async () => {
      const { drawable, diagnostics } = evaluateJob(job, {}, disk, "", kit.cache);
      if (!drawable) throw new Error(diagnostics.map(({ message }) => message).join("; "));
      return renderSheet(drawable, "handover", {}, kit);
    };
    return [String(size), work] as const;
  });
  const measured = await warm(Object.fromEntries(works), 8);
  return sizes.map((size) => [size, measured[size]!] as const);
}

const line = (name: string, numbers: readonly number[]) =>
  `${name.padEnd(34)}${numbers.map((number) => String(round(number)).padStart(10)).join("")}`;

/** What a warm page costs each program, in processes of their own; medians of rounds, so that all see the same machine. */
function warmInTurn(programs: readonly string[], rounds: number, pages: number): Record<string, Warm> {
  const all: Record<string, Warm[]> = Object.fromEntries(programs.map((name) => [name, []]));
  for (let round = 0; round < rounds; round++)
    for (const name of programs) {
      const { stdout, stderr, status } = spawnSync(process.execPath, [`${FOLDER}/warm-one.mjs`, name, String(pages)], {
        encoding: "utf8",
      });
      if (status !== 0) throw new Error(`${name} ended with ${status}: ${stderr}`);
      all[name]!.push(JSON.parse(stdout));
    }
  return Object.fromEntries(
    Object.entries(all).map(([name, rounds]) => {
      const of = (what: (one: Warm) => number) => median(rounds.map(what));
      const stages = Object.keys(rounds[0]!.stages ?? {}).map((stage) => [stage, of((one) => one.stages![stage]!)]);
      const sums = { cpu: of(({ cpu }) => cpu), wall: of(({ wall }) => wall), kB: of(({ kB }) => kB) };
      return [name, { ...sums, ...(stages.length > 0 && { stages: Object.fromEntries(stages) }) }];
    }),
  );
}
