import { join } from "node:path";
import { compileShapes } from "../../src/charts/compile-shapes.ts";
import { openShapes } from "../../src/charts/scenegraph.ts";
import { disk } from "../../src/io/disk.ts";
import { openFonts } from "../../src/pdf/font/fonts.ts";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { type Resources, renderSheet } from "../../src/pipeline/render-sheet.ts";
import { createLoadCache } from "../../src/project/load-cache.ts";
import { createDownscale } from "../../src/raster/fit-photo.ts";
import { readContent } from "./content-file.ts";
import { floorPage, openFaces } from "./floor.ts";
import { median } from "./measure.ts";
import { pdfmakePage } from "./pdfmake-page.ts";
import { plainOf } from "./plain.ts";
import { reactPage } from "./react-page.ts";
import { shopWith } from "./shop-with.ts";
import { STAGES, type Times, timed } from "./stages.ts";

// A process of its own for each program: in one for all, each would pay for what the others leave behind.

/** What a warm page costs [ms], its size [kB], and for this program where the time goes. */
export type Warm = {
  readonly wall: number;
  readonly cpu: number;
  readonly kB: number;
  readonly stages?: Readonly<Record<string, number>>;
};

const [program, count] = [process.argv[2]!, Number(process.argv[3])];

const kit: Resources = {
  io: disk,
  fonts: openFonts(),
  shapes: openShapes(compileShapes()),
  downscale: createDownscale(),
  templates: join(process.cwd(), "templates"),
  cache: createLoadCache(),
  version: "bench",
};

/** Pages made one after another, the first half to warm up. */
async function costs(page: () => Promise<Uint8Array>): Promise<Warm> {
  const [wall, cpu]: [number[], number[]] = [[], []];
  let bytes = 0;
  for (let run = -count; run < count; run++) {
    const [start, used] = [performance.now(), process.cpuUsage()];
    bytes = (await page()).length;
    const { user, system } = process.cpuUsage(used);
    if (run < 0) continue;
    wall.push(performance.now() - start);
    cpu.push((user + system) / 1000);
  }
  return { wall: median(wall), cpu: median(cpu), kB: bytes / 1000 };
}

async function ours(): Promise<Warm> {
  const path = shopWith("warm", 1);
  const page = async () => {
    const { drawable } = evaluateJob(path, {}, disk, "", kit.cache);
    return (await renderSheet(drawable!, "page", {}, kit)).pdf!;
  };
  const whole = await costs(page);
  const times: Times[] = [];
  for (let run = 0; run < count; run++) times.push((await timed(path, kit)).times);
  return {
    ...whole,
    stages: Object.fromEntries(STAGES.map((stage) => [stage, median(times.map((one) => one[stage]))])),
  };
}

const works: Readonly<Record<string, () => Promise<Warm>>> = {
  headsheet: ours,
  "PDFKit floor": () => {
    const [content, faces] = [readContent(), openFaces(".")];
    return costs(() => floorPage(content, faces));
  },
  pdfmake: () => {
    const plain = plainOf(readContent());
    return costs(() => pdfmakePage(plain));
  },
  "react-pdf": () => {
    const plain = plainOf(readContent());
    return costs(() => reactPage(plain));
  },
};

process.stdout.write(JSON.stringify(await works[program]!()));
