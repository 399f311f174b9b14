import { spawnSync } from "node:child_process";
import { linkSync, mkdirSync, mkdtempSync, renameSync, rmSync, symlinkSync, unlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { disk } from "../../src/io/disk.ts";
import type { Io } from "../../src/io/io.ts";
import { findTemplate } from "../../src/project/find-template.ts";
import { listJobs } from "../../src/project/list-jobs.ts";
import { loadProject } from "../../src/project/load-project.ts";
import { SHOP, SHORT_SET } from "./shop-texts.ts";

let folder = "";
const at = (...parts: string[]) => join(folder, ...parts);
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "headsheet-"));
  for (const name of ["shop/jobs", "shop/templates", "outside"]) mkdirSync(at(name), { recursive: true });
  writeFileSync(at("shop/shop.yaml"), SHOP);
  writeFileSync(at("shop/jobs/a.yaml"), SHORT_SET);
  writeFileSync(at("outside/secret.yaml"), SHORT_SET.replace("job:", "may_compare: yes\njob:"));
  writeFileSync(at("outside/secret.csv"), "lift,intake\n0.1,2\n");
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const codes = (more: string, io: Io = disk) => {
  writeFileSync(at("shop/jobs/a.yaml"), SHORT_SET + more);
  return loadProject(at("shop/jobs/a.yaml"), io).diagnostics.map((each) => each.code);
};
const asRun = (file: string) => {
  writeFileSync(
    at("shop/jobs/a.yaml"),
    SHORT_SET.replace(/ {4}flow: \|\n(?: {6}.*\n)+work/, `    runs: [ { file: ${file} } ]\nwork`),
  );
  return loadProject(at("shop/jobs/a.yaml"), disk).diagnostics.map((each) => each.code);
};

/** Every kind of file that a job can name, and the line that names it. */
const NAMED = [
  ["a photo", (path: string) => codes(`photos: [ { file: '${path}' } ]\n`)],
  ["a job to compare with", (path: string) => codes(`compare: [ { job: '${path}' } ]\n`)],
  ["readings", (path: string) => asRun(`'${path}'`)],
] as const;

describe.each(NAMED)("%s stays inside the shop", (_, codesFor) => {
  test.each([
    ["../../outside/secret.yaml", "project/path-outside"],
    ["../jobs/../../outside/secret.csv", "project/path-outside"],
    ["/etc/hostname", "project/path-absolute"],
    ["~/secret.csv", "project/path-absolute"],
    ["C:\\secret.csv", "project/path-absolute"],
    ["C:secret.csv", "project/path-absolute"],
    ["\\\\server\\share\\secret.csv", "project/path-absolute"],
    ["//server/share/secret.csv", "project/path-absolute"],
    ["..\\..\\outside\\secret.csv", "project/path-backslash"],
    ["https://example.org/a.csv", "project/path-url"],
    ["file:///etc/hostname", "project/path-url"],
    ["data:text/csv,lift", "project/path-url"],
    ["/dev/zero", "project/path-absolute"],
  ])("%s", (path, code) => expect(codesFor(path)).toEqual([code]));
  test("a link that leaves, a folder linked out, a link to a device", () => {
    symlinkSync(at("outside/secret.csv"), at("shop/jobs/link"));
    symlinkSync(at("outside"), at("shop/jobs/folder"));
    symlinkSync("/dev/zero", at("shop/jobs/zero"));
    for (const path of ["link", "folder/secret.csv", "zero"]) expect(codesFor(path)).toEqual(["project/path-outside"]);
  });
  test("a link that leads to itself", () => {
    symlinkSync(at("shop/jobs/loop"), at("shop/jobs/loop"));
    expect(codesFor("loop")).toEqual(["project/file-missing"]);
  });
  test("a pipe that nobody writes to is refused at once", () => {
    expect(spawnSync("mkfifo", [at("shop/jobs/pipe")]).status).toBe(0);
    expect(codesFor("pipe")).toEqual(["project/not-a-file"]);
  });
  test("what vanishes between the look and the reading is missing, at its place", () => {
    writeFileSync(at("shop/jobs/brief"), "x");
    const vanishing: Io = {
      ...disk,
      realPath: (path) => {
        const real = disk.realPath(path);
        if (real === at("shop/jobs/brief")) unlinkSync(real);
        return real;
      },
    };
    const job = at("shop/jobs/a.yaml");
    codesFor("brief");
    const { diagnostics } = loadProject(job, vanishing);
    expect(diagnostics).toMatchObject([{ code: "project/file-missing", at: { file: job } }]);
  });
});

test("what is swapped for a link out between the look and the reading is not read", () => {
  writeFileSync(at("shop/jobs/f.csv"), "lift,intake\n0.1,40\n");
  const swapping: Io = {
    ...disk,
    realPath: (path) => {
      const real = disk.realPath(path);
      if (real === at("shop/jobs/f.csv")) {
        renameSync(real, at("shop/jobs/g.csv"));
        symlinkSync(at("outside/secret.csv"), real);
      }
      return real;
    },
  };
  asRun("f.csv");
  const { diagnostics, filesRead } = loadProject(at("shop/jobs/a.yaml"), swapping);
  expect(diagnostics.map((each) => each.code)).toEqual(["project/not-a-file"]);
  expect(filesRead).not.toContain(at("shop/jobs/f.csv"));
});

test("a second name of a file outside is a file inside: the disk knows no difference", () => {
  linkSync(at("outside/secret.csv"), at("shop/jobs/f.csv"));
  expect(asRun("f.csv")).toEqual([]);
});

test("a shop.yaml that is a link out of its folder is refused, not read", () => {
  unlinkSync(at("shop/shop.yaml"));
  symlinkSync(at("outside/secret.yaml"), at("shop/shop.yaml"));
  const { diagnostics, filesRead } = loadProject(at("shop/jobs/a.yaml"), disk);
  expect(diagnostics.map((each) => each.code)).toContain("project/path-outside");
  expect(filesRead).toEqual([at("shop/jobs/a.yaml")]);
});

test("a shop's logo and template stay inside too", () => {
  symlinkSync(at("outside/secret.yaml"), at("shop/templates/mine.yaml"));
  const places = { root: at("shop"), builtIn: at("none") };
  expect(findTemplate("mine", places, [], disk).diagnostics.map((each) => each.code)).toEqual(["project/path-outside"]);
  expect(findTemplate("../../outside/secret", places, [], disk).diagnostics[0]?.code).toBe("project/template-missing");
  writeFileSync(at("shop/shop.yaml"), SHOP.replace("name: Quayside Heads", "name: Q, logo: ../outside/logo.png"));
  expect(codes("")).toEqual(["project/path-outside"]);
});

test("a job that a person names may be a link; jobs that are found may not lead out of the folder", () => {
  symlinkSync(at("outside/secret.yaml"), at("shop/jobs/link.yaml"));
  symlinkSync(at("outside"), at("shop/jobs/folder"));
  expect(loadProject(at("shop/jobs/link.yaml"), disk).diagnostics).toEqual([]);
  expect(listJobs(at("shop/jobs"), disk)).toEqual([at("shop/jobs/a.yaml")]);
});

test("a job that is too large to be looked into is found all the same, so that it is refused aloud", () => {
  writeFileSync(at("shop/jobs/large.yaml"), `job: 1\nremarks: ${"x".repeat(300_000)}\n`);
  expect(listJobs(at("shop/jobs"), disk)).toEqual([at("shop/jobs/a.yaml"), at("shop/jobs/large.yaml")]);
  expect(loadProject(at("shop/jobs/large.yaml"), disk).diagnostics.map((each) => each.code)).toEqual([
    "project/too-large",
  ]);
});

test("a job saved with a byte order mark is found", () => {
  writeFileSync(at("shop/jobs/bom.yaml"), `\ufeff${SHORT_SET}`);
  expect(listJobs(at("shop/jobs"), disk)).toContain(at("shop/jobs/bom.yaml"));
  expect(loadProject(at("shop/jobs/bom.yaml"), disk).diagnostics).toEqual([]);
});

test("a job that may not be read is refused; the disk's own failures too", () => {
  const silent = (why: string): Io => ({ ...disk, readFile: () => ({ kind: "unreadable", why }) });
  const { diagnostics } = loadProject(at("shop/jobs/a.yaml"), silent("there is no permission to read it"));
  expect(diagnostics).toMatchObject([{ code: "project/unreadable", hint: "there is no permission to read it" }]);
});
