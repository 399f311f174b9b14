import { type ChildProcess, spawn } from "node:child_process";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { copyJobs, PROGRAM, stateOf } from "../cli/run.ts";

const QUIET = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

export const openBrowser = (): Promise<Browser> =>
  chromium.launch({ executablePath: "/usr/bin/chromium", headless: true, args: QUIET });

/** The program serving, as its own process. */
export type Serving = { readonly address: string; readonly err: () => string; readonly process: ChildProcess };

export function serve(
  args: readonly string[],
  cwd: string,
  node: readonly string[] = [],
  env: Readonly<Record<string, string>> = {},
  program = PROGRAM,
): Promise<Serving> {
  const started = spawn(process.execPath, [...node, program, "watch", ...args], {
    cwd,
    env: { ...process.env, XDG_STATE_HOME: stateOf(cwd), ...env },
  });
  let err = "";
  started.stderr.on("data", (part) => {
    err += part;
  });
  return new Promise((done, failed) => {
    started.stdout.once("data", (part) => done({ address: String(part).trim(), err: () => err, process: started }));
    started.once("exit", (code) => failed(new Error(`the program ended with ${code}: ${err}`)));
  });
}

export const ended = ({ process }: Serving): Promise<number | null> =>
  process.exitCode !== null
    ? Promise.resolve(process.exitCode)
    : new Promise((done) => process.once("exit", (code) => done(code)));

/** A page whose every complaint, of the policy too, is written down. */
export async function openPage(
  browser: Browser,
  address: string,
  size = { width: 1400, height: 900 },
  deviceScaleFactor = 1,
) {
  const page = await browser.newPage({ viewport: size, deviceScaleFactor });
  const complaints: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(String(error)));
  const elsewhere: string[] = [];
  page.on("request", (asked) => {
    if (!asked.url().startsWith(address.split("#")[0]!)) elsewhere.push(asked.url());
  });
  await page.goto(address);
  await page.locator("#pages img").first().waitFor();
  return { page, complaints, elsewhere };
}

/** The demo jobs in a folder of their own. */
export const copyDemo = (folder: string) => copyJobs(join(folder, "jobs"));

/**
 * How much slower than alone this machine is just now: time on the wall against time on the processor, for the same work. The promise of one
 * second is made for a machine that is not busy with something else.
 */
export function busyness(): number {
  const [wall, cpu] = [performance.now(), process.cpuUsage()];
  while (process.cpuUsage(cpu).user < 100_000);
  const used = process.cpuUsage(cpu);
  return Math.max(1, (performance.now() - wall) / ((used.user + used.system) / 1000));
}

/** Opens a job by the list of jobs. */
export async function chooseJob(page: Page, path: string) {
  await page.locator("#choose").click();
  await page.locator("#search").fill(path);
  await page.locator("#jobs-list button", { hasText: path }).click();
}
