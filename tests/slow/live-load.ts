import { readdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { get } from "node:http";
import { connect, type Socket } from "node:net";
import { join } from "node:path";
import { expect } from "vitest";
import type { JobView } from "../../src/commands/watch/messages.ts";
import { headsheet, namesIn } from "../cli/run.ts";
import { seeded } from "./killed.ts";
import type { Serving } from "./live-page.ts";

/** What a serving program holds: memory that is its own [MB], and open files, pipes and lines. */
export type Held = { readonly rss: number; readonly open: number };

export function heldBy({ process: { pid } }: Serving): Held {
  const [, rss] = /VmRSS:\s+(\d+) kB/.exec(readFileSync(`/proc/${pid}/status`, "utf8"))!;
  return { rss: Number(rss) / 1000, open: readdirSync(`/proc/${pid}/fd`).length };
}

/** Memory in use by a program after a garbage collection. */
export const SAYS_HELD = ["--expose-gc", "--require", new URL("say-held.cjs", import.meta.url).pathname] as const;
/** What a program started so holds after a collection [MB]: values, and bytes beside them. */
export type Kept = { readonly heap: number; readonly external: number };

export function keptBy({ process: { pid }, err }: Serving): Promise<Kept> {
  const before = said(err()).length;
  process.kill(pid!, "SIGUSR2");
  return until("what is held", () => said(err()).length > before).then(() => said(err()).at(-1)!);
}

const said = (err: string): readonly Kept[] =>
  [...err.matchAll(/^held ([\d.]+) ([\d.]+)$/gm)].map(([, heap, external]) => ({
    heap: Number(heap),
    external: Number(external),
  }));

export const pause = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));

/** Asks again until it is so, or for too long; a busy machine is waited for. */
export async function until(what: string, isSo: () => boolean | Promise<boolean>, longest = 60_000): Promise<void> {
  const start = performance.now();
  while (!(await isSo())) {
    if (performance.now() - start > longest) throw new Error(`not within ${longest / 1000} s: ${what}`);
    await pause(50);
  }
}

/** A page's line to the program: every view as it comes. */
export type Line = {
  readonly views: () => number;
  readonly latest: () => JobView | undefined;
  readonly close: () => void;
};

export function openLine(address: string, job: number): Promise<Line> {
  let views = 0;
  let latest: JobView | undefined;
  return new Promise((done, failed) => {
    const asking = get(new URL(`jobs/${job}/events`, address), { agent: false }, (response) => {
      let rest = "";
      response.setEncoding("utf8").on("data", (part) => {
        const events = (rest + part).split("\n\n");
        rest = events.pop()!;
        for (const event of events) {
          const [first, data] = event.split("\n");
          if (first !== "event: view") continue;
          views++;
          latest = JSON.parse(data!.slice("data: ".length)) as JobView;
        }
      });
      response.on("error", () => undefined);
      done({ views: () => views, latest: () => latest, close: () => asking.destroy() });
    });
    asking.on("error", failed);
  });
}

/** The files that one page is made from, and a change of each that shows on it. */
const FILES: readonly (readonly [path: string, change: (text: string, save: number) => string])[] = [
  ["2026-040.yaml", (text, save) => text.replace("Castle Row Garage", `Castle Row Garage ${save}`)],
  ["shop.yaml", (text, save) => text.replace(/phone: .*/, `phone: 555 ${save}`)],
  ["bench/2026-040-finished-1.csv", (text, save) => text.replace(/[\d.]+\s*$/, `${100 + (save % 97) / 10}\n`)],
];

/**
 * Saves a job, its shop and its readings in quick succession, as editors do: over the file, or beside it and then renamed. Now and then
 * the page is waited for. In the end it shows what is saved last, to the byte of what `make` makes.
 */
export async function saveMany(serving: Serving, cwd: string, job: number, saves: number) {
  const folder = join(cwd, "jobs", "alder-lane");
  const texts = FILES.map(([path]) => readFileSync(join(folder, path), "utf8"));
  const random = seeded(saves);
  const line = await openLine(serving.address, job);
  const held: Held[] = [];
  for (let save = 1; save <= saves; save++) {
    const [path, change] = FILES[Math.floor(random() * FILES.length)]!;
    const unchanged = texts[FILES.findIndex(([one]) => one === path)]!;
    const text = change(unchanged, save);
    expect(text).not.toBe(unchanged);
    if (random() < 0.5) writeFileSync(join(folder, path), text);
    else {
      writeFileSync(join(cwd, "beside"), text);
      renameSync(join(cwd, "beside"), join(folder, path));
    }
    await pause(random() * 40);
    if (save % 50 === 0 || save === saves) {
      await shows(line, cwd, serving.address, save === saves);
      held.push(heldBy(serving));
    }
  }
  const views = line.views();
  line.close();
  return { views, held };
}

/**
 * Saves as somebody does who looks at the page each time: the sheet is waited for, and its first page is drawn for the screen.
 * After every `step` saves it is asked what the program holds.
 */
export async function savePaced(serving: Serving, cwd: string, job: number, saves: number, step: number) {
  const folder = join(cwd, "jobs", "alder-lane");
  const texts = FILES.map(([path]) => readFileSync(join(folder, path), "utf8"));
  const line = await openLine(serving.address, job);
  await until("a first view", () => line.latest() !== undefined);
  const shown = () => line.latest()!.outcome.sheets[0]!.id;
  const kept: (Held & Kept)[] = [];
  for (let save = 1; save <= saves; save++) {
    const file = save % FILES.length;
    const [path, change] = FILES[file]!;
    const before = shown();
    writeFileSync(join(folder, path), change(texts[file]!, save));
    await until(`save ${save} is seen`, () => shown() !== before);
    const picture = await fetch(new URL(`sheets/${shown()}/1.png?dpi=100`, serving.address));
    expect([picture.status, (await picture.arrayBuffer()).byteLength > 10_000]).toEqual([200, true]);
    if (save % step === 0) kept.push({ ...heldBy(serving), ...(await keptBy(serving)) });
  }
  const views = line.views();
  line.close();
  return { views, kept };
}

/** Waits until the page's text is the file's; with `surely`, until its sheet is what `make` makes. */
async function shows(line: Line, cwd: string, address: string, surely: boolean): Promise<void> {
  const text = readFileSync(join(cwd, "jobs", "alder-lane", "2026-040.yaml"), "utf8");
  await until("the page has the text that was saved last", () => line.latest()?.saved?.text === text);
  if (!surely) return;
  expect(headsheet(["make", "jobs/alder-lane/2026-040.yaml", "--out", "made", "--force"], { cwd }).code).toBe(0);
  const made = readFileSync(join(cwd, "made", namesIn(join(cwd, "made"))[0]!));
  await until("the page has the sheet that was saved last", async () => {
    const sheet = line.latest()?.outcome.sheets[0];
    if (!sheet) return false;
    const answer = await fetch(new URL(`sheets/${sheet.id}.pdf`, address));
    return made.equals(Buffer.from(await answer.arrayBuffer()));
  });
}

/** Requests that are none, or never become one. */
export const MALFORMED: readonly (readonly [what: string, bytes: string | Uint8Array])[] = [
  ["nothing", ""],
  ["one byte", "G"],
  ["half a request line", "GET /abc"],
  ["half a head", "GET / HTTP/1.1\r\nHost: 127.0.0.1"],
  ["no version", "GET /\r\n\r\n"],
  ["a version of its own", "GET / HTTP/9.9\r\n\r\n"],
  ["no target", "GET  HTTP/1.1\r\n\r\n"],
  ["blanks in the target", "GET /a b c HTTP/1.1\r\nHost: a\r\n\r\n"],
  ["line feeds alone", "GET / HTTP/1.1\nHost: a\n\n"],
  ["a null in the line", "GET /\0 HTTP/1.1\r\nHost: a\r\n\r\n"],
  ["a target without an end", `GET /${"a".repeat(100_000)} HTTP/1.1\r\nHost: a\r\n\r\n`],
  ["a header without an end", `GET / HTTP/1.1\r\nHost: a\r\nX: ${"a".repeat(100_000)}\r\n\r\n`],
  ["a thousand headers", `GET / HTTP/1.1\r\n${"X: y\r\n".repeat(1000)}\r\n`],
  ["a header without a name", "GET / HTTP/1.1\r\nHost: a\r\n: y\r\n\r\n"],
  ["a folded header", "GET / HTTP/1.1\r\nHost: a\r\nX: y\r\n z\r\n\r\n"],
  ["a length that is none", "POST / HTTP/1.1\r\nHost: a\r\nContent-Length: many\r\n\r\n"],
  ["a length below nothing", "POST / HTTP/1.1\r\nHost: a\r\nContent-Length: -1\r\n\r\n"],
  ["a length beyond all numbers", `POST / HTTP/1.1\r\nHost: a\r\nContent-Length: ${"9".repeat(40)}\r\n\r\n`],
  ["a length that the body falls short of", "POST / HTTP/1.1\r\nHost: a\r\nContent-Length: 100\r\n\r\nshort"],
  ["a chunk that is none", "POST / HTTP/1.1\r\nHost: a\r\nTransfer-Encoding: chunked\r\n\r\nzz\r\n"],
  ["two requests in one", "GET / HTTP/1.1\r\nHost: a\r\n\r\nGET / HTTP/1.1\r\nHost: a\r\n\r\n"],
  ["noise", Uint8Array.from({ length: 5000 }, (_, n) => (n * 7919 + 13) % 256)],
];

/** A raw socket that sends and reads only on demand. */
export function bareLine(address: string, bytes: string | Uint8Array, reads: boolean): Promise<Socket> {
  return new Promise((done, failed) => {
    const socket = connect(Number(new URL(address).port), "127.0.0.1");
    if (!reads) socket.pause();
    else socket.resume();
    socket.once("connect", () => {
      socket.off("error", failed);
      // However it is cut is well.
      socket.on("error", () => undefined);
      if (bytes.length > 0) socket.write(bytes);
      done(socket);
    });
    socket.once("error", failed);
  });
}

/** A request for the events of a job, as bytes. */
export const eventsAsked = (address: string, job: number): string => {
  const { host, pathname } = new URL(address);
  return `GET ${pathname}jobs/${job}/events HTTP/1.1\r\nHost: ${host}\r\n\r\n`;
};
