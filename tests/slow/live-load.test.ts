import { appendFileSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { get } from "node:http";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { copyJobs, scratch } from "../cli/run.ts";
import { bareLine, eventsAsked, type Held, heldBy, MALFORMED, openLine, pause, saveMany, until } from "./live-load.ts";
import { ended, type Serving, serve } from "./live-page.ts";

const cwd = join(scratch(), "desk");
const large = join(cwd, "jobs", "alder-lane", "2026-019.yaml");
let serving: Serving;
let idle: Held;

beforeAll(async () => {
  mkdirSync(cwd);
  copyJobs(join(cwd, "jobs", "alder-lane"), "alder-lane");
  serving = await serve(["jobs/alder-lane/2026-040.yaml", "jobs/alder-lane/2026-019.yaml"], cwd);
  // Requests the page once, so that everything it loads is cached.
  const line = await openLine(serving.address, 0);
  await until("a first view", () => line.views() > 0, 120_000);
  line.close();
  await alone();
  idle = heldBy(serving);
}, 240_000);
afterAll(async () => {
  serving.process.kill("SIGINT");
  expect(await ended(serving)).toBe(0);
});

/** Requests the page without keeping the connection open. */
const page = (): Promise<number> =>
  new Promise((done, failed) => {
    get(serving.address, { agent: false }, (response) => {
      response.resume().on("end", () => done(response.statusCode!));
    }).on("error", failed);
  });
const answers = async () => expect(await page()).toBe(200);
let before = Number.POSITIVE_INFINITY;
/** Waits until the program holds no line of ours any more. */
const alone = () =>
  until("all lines are let go", async () => {
    const { open } = heldBy(serving);
    const [still, was] = [open === before, before];
    before = open;
    await pause(200);
    return still && was === open;
  });
const freed = () => until(`open files are ${idle.open} again`, () => heldBy(serving).open === idle.open, 30_000);

test("a hundred saves of job, shop and readings in quick succession end in the right picture, and hold nothing", async () => {
  const { views, held } = await saveMany(serving, cwd, 0, 100);
  const [first, last] = [held[0]!, held.at(-1)!];
  process.stdout.write(`100 saves: ${views} views, ${first.rss.toFixed(0)} then ${last.rss.toFixed(0)} MB\n`);
  expect(views).toBeGreaterThan(2);
  await freed();
  await answers();
}, 240_000);

describe("what is no request", () => {
  test.each(MALFORMED)("%s: the program answers others meanwhile, and lets go of it", async (_, bytes) => {
    const line = await bareLine(serving.address, bytes, true);
    await answers();
    // Said by us that no more comes, or found by the program that none does.
    await until("the line is cut", () => line.destroyed, 20_000);
    await answers();
  });

  test("half requests whose sender goes away leave nothing", async () => {
    const lines = await Promise.all(
      Array.from({ length: 60 }, (_, n) => bareLine(serving.address, MALFORMED[n % 4]![1], false)),
    );
    await answers();
    for (const line of lines) line.destroy();
    await freed();
  });
});

test("two hundred lines at once that say nothing: others are answered, and all are let go", async () => {
  const lines = await Promise.all(Array.from({ length: 200 }, () => bareLine(serving.address, "", true)));
  await answers();
  await until("all are cut", () => lines.every((line) => line.destroyed), 30_000);
  await freed();
  await answers();
}, 120_000);

test("two hundred requests at once: each is answered, some with a word that it was too much", async () => {
  const all = await Promise.all(Array.from({ length: 200 }, page));
  expect(all.filter((status) => status !== 200 && status !== 503)).toEqual([]);
  expect(all.filter((status) => status === 200).length).toBeGreaterThan(0);
  await answers();
  await freed();
}, 120_000);

test("readers that never read are sent away when too much waits for them; one that reads misses nothing", async () => {
  const text = readFileSync(large, "utf8");
  // As much text as a job may have: every view carries it.
  const comments = `# ${"x".repeat(97)}\n`.repeat(2000);
  const reader = await openLine(serving.address, 1);
  await until("a first view", () => reader.views() > 0);
  const { open } = heldBy(serving);
  const dull = await Promise.all(
    Array.from({ length: 6 }, () => bareLine(serving.address, eventsAsked(serving.address, 1), false)),
  );
  await until("all are let in", () => heldBy(serving).open === open + dull.length);
  let saves = 0;
  // 6 MB may lie in the system's own buffers, 4 MB in ours.
  await until(
    "the dull ones are cut",
    async () => {
      const [views, now] = [reader.views(), `${text}${comments}# ${++saves}\n`];
      writeFileSync(large, now);
      await until("the reader has it", () => reader.latest()?.saved?.text === now && reader.views() > views);
      return heldBy(serving).open === open;
    },
    200_000,
  );
  process.stdout.write(`cut after ${saves} views of 200 kB, at ${heldBy(serving).rss.toFixed(0)} MB\n`);
  reader.close();
  for (const line of dull) line.destroy();
  writeFileSync(large, text);
  await freed();
  await answers();
}, 300_000);

test("more pages than allowed are refused until one is closed", async () => {
  const opened = await Promise.all(Array.from({ length: 24 }, () => openLine(serving.address, 1)));
  const { status } = await fetch(new URL("jobs/1/events", serving.address));
  expect(status).toBe(503);
  appendFileSync(large, "# seen by all\n");
  await until("all see it", () =>
    opened.every((line) => line.latest()?.saved?.text.endsWith("# seen by all\n") === true),
  );
  for (const line of opened) line.close();
  await freed();
  const again = await openLine(serving.address, 1);
  await until("a view", () => again.views() > 0);
  again.close();
}, 120_000);

test("after all that no message was printed and memory is unchanged", async () => {
  await freed();
  expect(serving.err()).toBe("open this address in a browser on this machine; Ctrl-C ends it\n");
  const now = heldBy(serving);
  process.stdout.write(`at rest ${idle.rss.toFixed(0)} MB and ${idle.open} open; after all ${now.rss.toFixed(0)} MB\n`);
  expect(now.rss).toBeLessThan(idle.rss + 250);
});
