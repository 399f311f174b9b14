import { cpSync, mkdirSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { ROOT, scratch } from "../cli/run.ts";
import { saveMany } from "../slow/live-load.ts";
import { ended, serve } from "../slow/live-page.ts";

const cwd = join(scratch(), "desk");

test("a thousand saves of job, shop and readings in quick succession end in the right picture, and hold nothing", async () => {
  mkdirSync(cwd);
  cpSync(join(ROOT, "jobs", "alder-lane"), join(cwd, "jobs", "alder-lane"), { recursive: true });
  const serving = await serve(["jobs/alder-lane/2026-040.yaml"], cwd);
  try {
    const { views, held } = await saveMany(serving, cwd, 0, 1000);
    const said = held.map(({ rss, open }) => `${rss.toFixed(0)} MB and ${open} open`);
    process.stdout.write(`1000 saves: ${views} views; every 50 saves ${said.join(", ")}\n`);
    // At the end the sheet itself is asked for, on a line that is not yet cut.
    expect(new Set(held.slice(0, -1).map(({ open }) => open)).size).toBe(1);
    // Each view is a sheet, of which the latest 32 MB are kept; the rest is room that the engine has not yet given back.
    const settled = Math.max(...held.slice(0, 8).map(({ rss }) => rss));
    expect(held.at(-1)!.rss).toBeLessThan(settled + 60);
  } finally {
    serving.process.kill("SIGINT");
    expect(await ended(serving)).toBe(0);
  }
});
