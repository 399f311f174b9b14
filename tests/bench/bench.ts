import { mkdirSync, writeFileSync } from "node:fs";
import { cpus } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { compileShapes } from "../../src/charts/compile-shapes.ts";
import { disk } from "../../src/io/disk.ts";
import { type Kit, makeSheet, workOut } from "../../src/make-sheet.ts";
import { openFonts } from "../../src/pdf/fonts.ts";
import { writeContent } from "./content-file.ts";
import { floorPage, openFaces } from "./floor.ts";
import { jobText, SHOP, TEMPLATE } from "./job-text.ts";
import { exponent, inTurn, median, once, warm } from "./measure.ts";
import { pdfmakePage } from "./pdfmake-page.ts";
import { plainOf } from "./plain.ts";
import { reactPage } from "./react-page.ts";
import { STAGES, type Times, timed } from "./stages.ts";

const PROGRAM = "bin/headsheet.js";
const FOLDER = "out/bench";
const round = (value: number) => Math.round(value * 100) / 100;
const say = (line: string) => process.stdout.write(`${line}\n`);

/** All numbers of DEVELOPERS.md's "Speed", side by side in one run. */
export async function bench(root: string, args: readonly string[]): Promise<void> {
  const { values } = parseArgs({ args: [...args], options: { jobs: { type: "string" }, quick: { type: "boolean" } } });
  const [runs, most] = values.quick ? [3, 100] : [9, Number(values.jobs ?? 1000)];
  const job = shopWith("one", 1);
  const kit: Kit = {
    io: disk,
    fonts: openFonts(),
    shapes: compileShapes(),
    templates: join(root, "templates"),
    version: "bench",
  };
  const { content } = await timed(job, kit);
  writeContent(content);
  say(`Node ${process.version}, ${cpus()[0]?.model.trim()} × ${cpus().length}; ${content.pages.length} page(s)`);

  const cold = inTurn(
    {
      "node -e 0": ["-e", "0"],
      "headsheet --help": [PROGRAM, "--help"],
      "headsheet make": [PROGRAM, "make", job, "--force", "--out", `${FOLDER}/made`],
      "PDFKit floor": [`${FOLDER}/cold-floor.mjs`],
      pdfmake: [`${FOLDER}/cold-pdfmake.mjs`],
      "react-pdf": [`${FOLDER}/cold-react.mjs`],
    },
    runs,
  );
  say("\na process each, median            CPU ms  wall ms  peak MB  ÷ floor (CPU)");
  for (const [name, { cpu, wall, rss }] of Object.entries(cold))
    say(line(name, [cpu, wall, rss, cpu / cold["PDFKit floor"]!.cpu]));

  const faces = openFaces(".");
  const plain = plainOf(content);
  const page = async () => {
    const { drawable } = workOut(job, {}, disk);
    return (await makeSheet(drawable!, "page", {}, kit)).pdf;
  };
  const works = {
    headsheet: page,
    "PDFKit floor": () => floorPage(content, faces),
    pdfmake: () => pdfmakePage(plain),
    "react-pdf": () => reactPage(plain),
  };
  const warmed = await warm(works, values.quick ? 10 : 60);
  say("\nwarm, one page in one process, median  CPU ms  kB  ÷ floor");
  const bytes: Record<string, number> = {};
  for (const [name, work] of Object.entries(works)) {
    bytes[name] = ((await work()) as Uint8Array).length / 1000;
    say(line(name, [warmed[name]!, bytes[name]!, warmed[name]! / warmed["PDFKit floor"]!]));
  }

  const times: Times[] = [];
  for (let run = 0; run < (values.quick ? 10 : 60); run++) times.push((await timed(job, kit)).times);
  const stages = Object.fromEntries(STAGES.map((stage) => [stage, median(times.map((one) => one[stage]))]));
  say("\nwhere a warm page's time goes, median of the clock [ms]");
  for (const [stage, ms] of Object.entries(stages)) say(line(stage, [ms]));

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
    JSON.stringify({ node: process.version, cold, warm: warmed, kB: bytes, stages, batches, growth }, null, 2),
  );
}

/** A shop with that many jobs; the path of the first. */
function shopWith(name: string, count: number, much?: Parameters<typeof jobText>[1]): string {
  const folder = join(FOLDER, name);
  mkdirSync(join(folder, "templates"), { recursive: true });
  writeFileSync(join(folder, "shop.yaml"), SHOP);
  writeFileSync(join(folder, "templates", "page.yaml"), TEMPLATE);
  for (let number = 1; number <= count; number++)
    writeFileSync(join(folder, `b-${number}.yaml`), jobText(number, much));
  return join(folder, "b-1.yaml");
}

/** What a warm sheet costs by how much its job holds. */
async function costs(sizes: readonly number[], muchOf: (size: number) => Parameters<typeof jobText>[1], kit: Kit) {
  const works = sizes.map((size) => {
    const job = shopWith(`growth-${JSON.stringify(muchOf(size)).replace(/\W+/g, "-")}`, 1, muchOf(size));
    const work = async () => {
      const { drawable, diagnostics } = workOut(job, {}, disk);
      if (!drawable) throw new Error(diagnostics.map(({ message }) => message).join("; "));
      return makeSheet(drawable, "handover", {}, kit);
    };
    return [String(size), work] as const;
  });
  const measured = await warm(Object.fromEntries(works), 8);
  return sizes.map((size) => [size, measured[size]!] as const);
}

const line = (name: string, numbers: readonly number[]) =>
  `${name.padEnd(34)}${numbers.map((number) => String(round(number)).padStart(10)).join("")}`;
