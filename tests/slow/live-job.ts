/// <reference lib="dom" />
import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, beforeEach, expect } from "vitest";
import { scratch } from "../cli/run.ts";
import { openBrowser, type Serving, serve } from "./live-page.ts";

/** Waits for something to be so. */
export const soon = <T>(read: () => T) => expect.poll(read, { timeout: 20_000 });

/** A job short enough to be on the page whole. */
export const JOB = `job: "1"
issued: 2026-03-18
customer: { name: H. Ashgrove }
head: { name: Two-valve four }
units: { length: mm, volume: cc, flow: cfm, pressure: inH2O }
bench: { test_pressure: 28, accuracy: 1.5 %, repeatability: { spread: 1.2 %, of: 5 }, remount: 1.4 % }
stages:
  - name: Finished
    intake:  { valve: 42, stem: 8, throat: 36 }
    exhaust: { valve: 35, stem: 8, throat: 30 }
    flow: |
      lift  intake  exhaust
      2.0    49.0    36.0
      4.0    94.0    68.0
      6.0   132.0    92.0
      8.0   158.0   107.0
      10.0  174.0   116.0
`;
export const SHOP = "shop: { name: Alder Lane Head Works }\n";

const folder = scratch();
/** The program and its page, open on the first of two jobs. */
export const live = {} as { browser: Browser; context: BrowserContext; serving: Serving; page: Page };

export const pathOf = (name = "1.yaml") => join(folder, "jobs", name);
export const fileText = (name?: string) => readFileSync(pathOf(name), "utf8");
export const put = (text: string, name?: string) => writeFileSync(pathOf(name), text);
export const start = () => serve([], folder);

/** Starts program and browser for the tests of a file. Each begins with the file as it was, open and saved, in a page just loaded. */
export function serveJobs(): void {
  beforeAll(async () => {
    mkdirSync(pathOf("templates"), { recursive: true });
    put(JOB);
    put(JOB.replace('"1"', '"2"'), "2.yaml");
    put(SHOP, "shop.yaml");
    live.serving = await start();
    live.browser = await openBrowser();
    live.context = await live.browser.newContext({ viewport: { width: 1440, height: 900 } });
    live.page = await openTab();
  }, 60_000);
  afterAll(async () => {
    await live.browser?.close();
    live.serving?.process.kill("SIGINT");
  });
  beforeEach(async () => {
    rmSync(pathOf("templates/handover.yaml"), { force: true });
    put(JOB);
    put(SHOP, "shop.yaml");
    await reload();
  });
}

/** Another tab on the same job. */
export async function openTab(): Promise<Page> {
  const page = await live.context.newPage();
  await page.goto(live.serving.address);
  await page.locator("#pages img").first().waitFor();
  return page;
}

/** Loads the page anew, without anything that it kept. */
export async function reload(page = live.page) {
  const accept = (dialog: { accept(): Promise<void> }) => void dialog.accept();
  page.on("dialog", accept);
  // Cleared from another page of the same origin: this one may keep its text until it is left.
  await page.goto(new URL("job.schema.json", live.serving.address).href);
  await page.evaluate("localStorage.clear(); sessionStorage.clear()");
  page.off("dialog", accept);
  await page.goto(live.serving.address);
  await page.locator("#pages img").first().waitFor();
  await soon(() => textIn(page)).toBe(JOB);
  await page.locator(".cm-content").focus();
}

export const textIn = (page = live.page) =>
  page.locator(".cm-line").evaluateAll((lines) => lines.map((line) => line.textContent).join("\n"));
/** What the page says of the text and the file. */
export const savedWords = (page = live.page) => page.locator("#state").textContent();
export const source = (page = live.page) => page.locator("#pages img").first().getAttribute("src");
export const follows = (page = live.page) => page.locator("#follows").textContent();
export const errors = (page = live.page) => page.locator("#list li.error span").allTextContents();
export const warnings = (page = live.page) => page.locator("#list li.warning span").allTextContents();

/** Puts the cursor after the first occurrence of some words in a line. */
export async function cursorAfter(words: string, page = live.page) {
  await page.locator(".cm-content").focus();
  await page.evaluate((wanted) => {
    const line = Array.from(document.querySelectorAll(".cm-line")).find((one) => one.textContent.includes(wanted))!;
    const walk = document.createTreeWalker(line, NodeFilter.SHOW_TEXT);
    let left = line.textContent.indexOf(wanted) + wanted.length;
    while (walk.nextNode()) {
      const node = walk.currentNode as Text;
      if (left <= node.length) {
        getSelection()!.collapse(node, left);
        return;
      }
      left -= node.length;
    }
  }, words);
  await page.waitForTimeout(60);
}
export const insert = (text: string, page = live.page) => page.keyboard.insertText(text);
export const press = (key: string, page = live.page) => page.keyboard.press(key);
export async function save(page = live.page) {
  await press("Control+s", page);
  await soon(() => savedWords(page)).toBe("saved");
}
