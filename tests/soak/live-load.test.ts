import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { copyJobs, scratch } from "../cli/run.ts";
import { keptBy, SAYS_HELD, saveMany, savePaced } from "../slow/live-load.ts";
import { ended, type Serving, serve } from "../slow/live-page.ts";

const folder = scratch();

async function served(name: string, work: (serving: Serving, cwd: string) => Promise<void>): Promise<void> {
  const cwd = join(folder, name);
  mkdirSync(cwd);
  copyJobs(join(cwd, "jobs", "alder-lane"), "alder-lane");
  const serving = await serve(["jobs/alder-lane/2026-040.yaml"], cwd, SAYS_HELD);
  try {
    await work(serving, cwd);
  } finally {
    serving.process.kill("SIGINT");
    expect(await ended(serving)).toBe(0);
  }
}

const mb = (value: number) => value.toFixed(1);

test("a thousand saves of job, shop and readings in quick succession end in the right picture, and hold nothing", async () => {
  await served("quick", async (serving, cwd) => {
    const { views, held } = await saveMany(serving, cwd, 0, 1000);
    const { heap, external } = await keptBy(serving);
    const said = held.map(({ rss, open }) => `${rss.toFixed(0)} MB and ${open} open`);
    process.stdout.write(
      `1000 saves: ${views} views; every 50 saves ${said.join(", ")}; at the end ${mb(heap)} + ${mb(external)} MB held\n`,
    );
    // A file may just be being read; at the end the sheet itself is asked for, on a line that is not yet cut.
    const open = held.map((one) => one.open);
    expect(Math.min(...open.slice(10))).toBe(Math.min(...open.slice(0, 10)));
    expect(Math.max(...open)).toBeLessThanOrEqual(open[0]! + 1);
    // Many saves fall together into few views: that views leave nothing behind is shown below.
    const settled = Math.max(...held.slice(0, 8).map(({ rss }) => rss));
    expect(held.at(-1)!.rss).toBeLessThan(settled + 60);
  });
});

const SAVES = 500;
/** By then the shelf is full of sheets, and all is loaded and compiled that ever will be. */
const SETTLED = 200;
const STEP = 50;

test("five hundred saves, each waited for and looked at, are five hundred views, and memory is level", async () => {
  await served("paced", async (serving, cwd) => {
    const { views, kept } = await savePaced(serving, cwd, 0, SAVES, STEP);
    const said = kept.map(({ rss, heap, external }) => `${rss.toFixed(0)} (${mb(heap)} + ${mb(external)})`);
    process.stdout.write(`${SAVES} saves: ${views} views; every ${STEP} MB (of them held): ${said.join(", ")}\n`);
    expect(views).toBeGreaterThanOrEqual(SAVES);
    expect(new Set(kept.map(({ open }) => open)).size).toBe(1);
    const settled = kept[SETTLED / STEP - 1]!;
    const most = (what: "heap" | "external" | "rss") => Math.max(...kept.slice(SETTLED / STEP).map((one) => one[what]));
    // From here on the heap was seen to grow by 1.5 MB, slower and slower: the engine's code, and words as they come. What stands beside
    // it did not grow at all. A leak of 10 kB a view shows above that; a sheet has 60.
    expect(most("heap")).toBeLessThan(settled.heap + 3);
    expect(most("external")).toBeLessThan(settled.external + 5);
    expect(most("rss")).toBeLessThan(settled.rss + 40);
  });
});
