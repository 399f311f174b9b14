import { createHash } from "node:crypto";
import { cpSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Environment } from "../../../src/commands/environment.ts";
import type { JobFacts, JobList, JobView, Outcome, SaveResult } from "../../../src/commands/watch/messages.ts";
import { type LiveServer, startLive } from "../../../src/commands/watch/start-live.ts";
import { disk } from "../../../src/io/disk.ts";
import { recordIo } from "../../../src/io/recording-io.ts";
import { loadProject } from "../../../src/project/load-project.ts";
import { inProcess, quietWorld, scratch } from "../../cli/run.ts";
import { nextEvent, postJson } from "./client.ts";

const folder = scratch();
const world: Environment = quietWorld(folder);
const JOB = join(folder, "jobs", "mine.yaml");
let live: LiveServer;
let text: string;
const STAMP = () => createHash("sha256").update(text).digest("hex");

beforeAll(async () => {
  await inProcess(["new", "jobs/mine.yaml"], folder);
  text = readFileSync(JOB, "utf8");
  cpSync(JOB, join(folder, "jobs", "other.yaml"));
  live = await startLive([], {}, world);
});
afterAll(() => live.close());

const get = (path: string) => fetch(new URL(path, live.address));
const post = <T>(path: string, body: unknown): Promise<T> => postJson(live, path, body);
const viewNow = async () => nextEvent<JobView>("view", await get("jobs/0/events"));

describe("what is served", () => {
  test("the page, under a policy that names no exception but this one nonce", async () => {
    const [one, two] = [await get(""), await get("")];
    const html = await one.text();
    const policy = one.headers.get("content-security-policy")!;
    const nonce = /nonce="([^"]+)"/.exec(html)![1]!;
    expect(policy).toContain(`style-src 'self' 'nonce-${nonce}'`);
    expect(policy).toContain("script-src 'self';");
    expect(policy).toContain("default-src 'none'");
    expect(policy).not.toMatch(/unsafe|\*|data:|https?:/);
    expect(html).not.toMatch(/<style|\sstyle=|\son\w+=|<script(?![^>]*src=)/);
    expect(two.headers.get("content-security-policy")).not.toBe(policy);
  });

  test("all it is made of, and nothing of that from elsewhere", async () => {
    const html = await (await get("")).text();
    const css = await (await get("page.css")).text();
    const named = [...html.matchAll(/(?:src|href)="([^"]+)"/g), ...css.matchAll(/url\("([^"]+)"\)/g)].map(
      ([, name]) => name!,
    );
    expect(named.length).toBeGreaterThan(5);
    for (const name of [...named, "job.schema.json"]) expect([name, (await get(name)).status]).toEqual([name, 200]);
    expect(await (await get("licences.txt")).text()).toMatch(/@codemirror\/view [\d.]+ \(MIT\)\n\nMIT License/);
  });

  test.each([
    "../",
    "../package.json",
    "..%2fpackage.json",
    "%2e%2e/package.json",
    "....//package.json",
    "..\\package.json",
    "jobs",
    "jobs/",
    "jobs/mine.yaml",
    "jobs/0",
    "jobs/0/",
    "jobs/99/events",
    "jobs/-1/events",
    "jobs/0/events/..",
    "jobs/00000/events",
    "sheets",
    "sheets/",
    `sheets/${"0".repeat(32)}.pdf`,
    `sheets/${"0".repeat(32)}/1.png?dpi=100`,
    "index.html",
    "/etc/passwd",
    "page.js/",
    "page.js%00",
    "constructor",
    "__proto__",
    "schemas/job.schema.json",
    ".",
  ])("nothing else: %s", async (path) => {
    const { port, pathname } = new URL(live.address);
    const { request } = await import("node:http");
    // As typed: fetch would tidy the path first.
    const got = await new Promise<{ status: number; body: string }>((done) => {
      request({ host: "127.0.0.1", port, path: pathname + path }, (response) => {
        let body = "";
        response.setEncoding("utf8").on("data", (part) => {
          body += part;
        });
        response.on("end", () => done({ status: response.statusCode!, body }));
      }).end();
    });
    expect(got).toEqual({ status: 404, body: "nothing is here\n" });
  });
});

describe("a job", () => {
  test("comes with its text, its problems, its sheets and figures; pages and PDF can be had", async () => {
    const { saved, outcome } = await viewNow();
    expect(saved).toEqual({ text, stamp: STAMP() });
    expect(outcome).toMatchObject({ problems: [], outOfDate: false });
    expect(outcome.figures).toContain("lift in");
    const [sheet] = outcome.sheets;
    const pdf = await get(`sheets/${sheet!.id}.pdf`);
    expect(pdf.headers.get("content-disposition")).toBe(`inline; filename="${sheet!.name}"`);
    expect((await pdf.text()).slice(0, 5)).toBe("%PDF-");
    for (const path of [
      `${sheet!.id}/0.png?dpi=100`,
      `${sheet!.id}/99.png?dpi=100`,
      `${sheet!.id}/1.png?dpi=9999`,
      `${sheet!.id}/1.png`,
    ])
      expect([path, (await get(`sheets/${path}`)).status]).toEqual([path, 404]);
  });

  test("unsaved text is looked at, and nothing is written", async () => {
    const before = statSync(JOB).mtimeMs;
    const bad = text.replace("issued: ", "isued: ");
    const outcome = await post<Outcome>("jobs/0/draft", { text: bad });
    expect(outcome.problems.map(({ code, place, span }) => ({ code, line: place?.line, span }))).toContainEqual({
      code: "job/unknown-key",
      line: bad.split("\n").findIndex((line) => line.startsWith("isued")) + 1,
      span: expect.anything(),
    });
    // The pages of another text, of this job or not, are no pages of this one.
    expect(outcome).toMatchObject({ outOfDate: true, sheets: [], figures: "" });
    expect(statSync(JOB).mtimeMs).toBe(before);
    expect(readdirSync(folder)).toEqual(["jobs"]);
  });

  test("is saved over the text it was made from, else both are shown", async () => {
    const mine = `${text}# mine\n`;
    const done = await post<SaveResult>("jobs/0/save", { text: mine, over: STAMP() });
    expect(done.kind).toBe("saved");
    expect(readFileSync(JOB, "utf8")).toBe(mine);
    const late = await post<SaveResult>("jobs/0/save", { text: "job: late\n", over: STAMP() });
    expect(late).toMatchObject({ kind: "conflict", theirs: { text: mine } });
    expect(readFileSync(JOB, "utf8")).toBe(mine);
    const over = late.kind === "conflict" ? late.theirs!.stamp : "";
    expect(await post<SaveResult>("jobs/0/save", { text, over })).toMatchObject({ kind: "saved" });
    expect(readFileSync(JOB, "utf8")).toBe(text);
  });

  test("a text too large for a job is not saved, and one that is no text not even looked at", async () => {
    const large = await post<SaveResult>("jobs/0/save", { text: "#".repeat(300_000), over: STAMP() });
    expect(large).toMatchObject({ kind: "refused", why: expect.stringContaining("256 kB") });
    for (const body of [null, 3, [], { text: 1 }, { text: "a", over: 1 }, { txt: "" }]) {
      const headers = { "Content-Type": "application/json" };
      const answer = await fetch(new URL("jobs/0/save", live.address), {
        method: "POST",
        headers,
        body: JSON.stringify(body),
      });
      expect([body, answer.status]).toEqual([body, 400]);
    }
    expect(readFileSync(JOB, "utf8")).toBe(text);
  });

  test("that changes on the disk is told", async () => {
    const stream = await get("jobs/0/events");
    const told = nextEvent<JobView>("view", stream, ({ saved }) => saved?.text.endsWith("# changed\n") ?? false);
    await new Promise((later) => setTimeout(later, 100));
    writeFileSync(JOB, `${text}# changed\n`);
    expect((await told).outcome.problems).toEqual([]);
    writeFileSync(JOB, text);
  });
});

test("the list of jobs, and what it shows of each; a text for another job than the number's is refused", async () => {
  const { jobs } = (await (await get("jobs.json")).json()) as JobList;
  expect(jobs.map(({ path }) => path)).toEqual(["jobs/mine.yaml", "jobs/other.yaml"]);
  const facts = (await (await get("facts.json")).json()) as readonly JobFacts[];
  expect(facts[0]).toEqual({
    path: "jobs/mine.yaml",
    ticket: expect.any(String),
    head: expect.any(String),
    customer: expect.any(String),
    draft: true,
  });
  const answer = await fetch(new URL("jobs/0/save", live.address), {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify({ text: "job: 1\n", over: STAMP(), path: "jobs/other.yaml" }),
  });
  expect([answer.status, readFileSync(JOB, "utf8")]).toEqual([409, text]);
});

test("readings of the figures have their lines in the job", async () => {
  const { outcome } = await viewNow();
  const lines = outcome.figures.split("\n");
  const places = Object.entries(outcome.readingPlaces);
  expect(places.length).toBeGreaterThan(5);
  for (const [line, { line: at }] of places) {
    const lift = Number(lines[Number(line)]!.trim().split(/\s+/)[0]);
    expect(Number(text.split("\n")[at - 1]!.trim().split(/\s+/)[0])).toBeCloseTo(lift, 3);
  }
});

test("jobs keep their numbers while others come and go", async () => {
  const stream = await get("jobs/0/events");
  const told = nextEvent<{ jobs: unknown[] }>("jobs", stream, ({ jobs }) => jobs.length === 3);
  await new Promise((later) => setTimeout(later, 100));
  cpSync(JOB, join(folder, "jobs", "a-new.yaml"));
  expect((await told).jobs).toEqual([
    { job: 2, path: "jobs/a-new.yaml" },
    { job: 0, path: "jobs/mine.yaml" },
    { job: 1, path: "jobs/other.yaml" },
  ]);
});

test("text that is not UTF-8 is shown, but not for editing", async () => {
  const { readJobText } = await import("../../../src/commands/watch/job-text.ts");
  const path = join(folder, "latin.yaml");
  writeFileSync(path, Uint8Array.of(0x61, 0x3a, 0x20, 0xe9, 0x0a));
  expect(readJobText(path, disk)?.why).toContain("not UTF-8");
});

test("whatever a job leads to is followed, photos and what is missing so far included", () => {
  const path = join(folder, "photo.yaml");
  writeFileSync(path, `${text}photos: [ { file: photos/chamber.jpg, caption: Chamber 1 } ]\n`);
  const asked = new Set<string>();
  expect(loadProject("photo.yaml", recordIo(disk, (one) => asked.add(one)).io, folder).diagnostics).toMatchObject([
    { code: "project/file-missing" },
  ]);
  for (const name of ["photo.yaml", "photos/chamber.jpg", "shop.yaml"])
    expect([...asked]).toContain(join(folder, name));
});
