/// <reference lib="dom" />
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { headsheet, scratch } from "../cli/run.ts";
import { JOB } from "./live-job.ts";
import { openBrowser, type Serving, serve } from "./live-page.ts";

const folder = scratch();
const soon = <T>(read: () => T) => expect.poll(read, { timeout: 15_000 });
let [browser, serving, page] = [] as unknown as [Browser, Serving, Page];
/** Keys pressed since the start of the first sweep. */
let keys = 0;

beforeAll(async () => {
  mkdirSync(join(folder, "jobs"), { recursive: true });
  writeFileSync(join(folder, "jobs", "1.yaml"), JOB);
  serving = await serve([], folder);
  browser = await openBrowser();
  page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.goto(serving.address);
  await page.locator("#pages img").first().waitFor();
}, 60_000);
afterAll(async () => {
  await browser?.close();
  serving?.process.kill("SIGINT");
});

const lift = () => page.locator("#bench-lift").textContent();
async function sweep(side: "intake" | "exhaust", readings: readonly string[]) {
  if ((await page.locator(`#bench-${side}`).getAttribute("aria-pressed")) !== "true") await page.keyboard.press("F4");
  for (const reading of readings) {
    await soon(lift).not.toBe("–");
    await page.locator("#bench-field").focus();
    await page.keyboard.type(reading);
    await page.keyboard.press("Enter");
    keys += reading.length + 1;
    await soon(() => page.locator("#bench-verdict").textContent()).toContain(`${reading} at`);
  }
}

test("a new job, a stage of 2 × 5 readings and its PDF, typing only names and numbers", async () => {
  await page.locator("#choose").click();
  await page.locator("#new-job summary").click();
  await page.locator("#new-form [name=ticket]").fill("2026-050");
  await page.locator("#new-form [name=customer]").fill("H. Ashgrove");
  await page.locator("#new-form [name=head]").fill("Two-valve four");
  await page.getByRole("button", { name: "Start the job" }).click();
  await soon(() => page.locator("#new-units").isVisible()).toBe(true);
  await page.getByRole("button", { name: "Start the job" }).click();
  await soon(() => page.locator("#bench-title").textContent()).toBe("2026-050 Two-valve four");
  await soon(lift).toBe("0.050");
  await sweep("intake", ["20.4", "40.1", "59.6", "78.4", "96.0"]);
  await sweep("exhaust", ["16.9", "33.0", "48.4", "63.1", "74.8"]);
  expect(keys / 10).toBeLessThanOrEqual(6);
  await soon(() => page.locator("#state").textContent()).toBe("saved");
  const text = readFileSync(join(folder, "jobs", "2026-050.yaml"), "utf8");
  expect(text).toMatch(/flow: \|\n {6}lift +intake +exhaust\n {6}0\.050 +20\.4 +16\.9\n/);
  expect(headsheet(["check", "jobs/2026-050.yaml"], { cwd: folder }).code).toBe(0);
  await page.locator('nav [data-to="sheet"]').click();
  await page.locator("#make").click();
  await soon(() => page.locator("#made").textContent()).toMatch(/^Made: /);
  const [, made] = /^Made: (\S+\.pdf)/.exec((await page.locator("#made").textContent())!)!;
  expect(existsSync(join(folder, made!))).toBe(true);
}, 90_000);
