import { spawnSync } from "node:child_process";
import { appendFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { headsheet, PROGRAM, ROOT, scratch } from "../cli/run.ts";
import { png } from "../project/pictures.ts";

const cwd = scratch();

/** A photograph's worth of pixels: slopes of colour with a camera's grain, which packs to a third. */
function photo(width: number, height: number, channels: number): Uint8Array {
  const rows = new Uint8Array(height * (1 + width * channels));
  let noise = 1;
  for (let y = 0, at = 0; y < height; y++) {
    rows[at++] = 1;
    for (let i = 0; i < width * channels; i++) {
      noise = (Math.imul(noise, 1664525) + 1013904223) >>> 0;
      rows[at++] = noise >>> 30;
    }
  }
  return png({ width, height, colour: channels === 4 ? 6 : 2, rows });
}

/** Most memory that making a sheet takes [MB], with this photo if there is one. */
function memoryWith(name: string, photo?: Uint8Array): number {
  const file = `jobs/${name}.yaml`;
  expect(headsheet(["new", file], { cwd }).code).toBe(0);
  if (photo) {
    writeFileSync(join(cwd, "jobs", "p.png"), photo);
    appendFileSync(join(cwd, file), "\nphotos: [ { file: p.png, caption: Chamber 1 } ]\n");
  }
  const report = join(ROOT, "tests", "bench", "report-use.cjs");
  const args = ["--require", report, PROGRAM, "make", file];
  const ran = spawnSync(process.execPath, args, { cwd, stdio: ["ignore", "ignore", "inherit", "pipe"] });
  expect(ran.status).toBe(0);
  return (JSON.parse(String(ran.output[3])) as { rss: number }).rss;
}

// Unpacked, such a photo has 72 MB, or 96 with its opacities: it stands there once while it is looked through.
test("a PNG photo of 24 million pixels takes a few times its own size", () => {
  const without = memoryWith("without");
  expect(memoryWith("with", photo(6000, 4000, 3)) - without).toBeLessThan(260);
}, 900_000);
