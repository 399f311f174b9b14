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
    expect(new Set(held.map(({ open }) => open)).size).toBe(1);
    // Settled by then: each view is a sheet, of which the latest are kept.
    const settled = Math.max(...held.slice(0, 8).map(({ rss }) => rss));
    expect(held.at(-1)!.rss).toBeLessThan(settled + 50);
  } finally {
    serving.process.kill("SIGINT");
    expect(await ended(serving)).toBe(0);
  }
});
