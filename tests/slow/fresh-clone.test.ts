import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { copyJobs, headsheet, namesIn, ROOT, scratch } from "../cli/run.ts";
import { EVERY_COMMAND } from "./every-command.ts";
import { ended, serve } from "./live-page.ts";

const folder = scratch();
const run = (command: string, args: readonly string[], cwd: string) =>
  spawnSync(command, args, { cwd, encoding: "utf8", maxBuffer: 1 << 28 });

/** What git holds, and nothing that was built or installed here. */
function clone(name: string): string {
  const path = join(folder, name);
  expect(run("git", ["clone", "--quiet", ROOT, path], folder).status).toBe(0);
  return path;
}

test("the README's two commands do everything on a fresh clone, with install scripts off", () => {
  const readme = readFileSync(join(ROOT, "README.md"), "utf8");
  expect(readme).toContain("```sh\nnpm ci\nnpm start\n```");
  const path = clone("plain");
  expect(run("npm", ["ci", "--ignore-scripts", "--silent"], path).status).toBe(0);
  expect(existsSync(join(path, "dist"))).toBe(false);
  const help = run("npx", ["headsheet", "--help"], path);
  expect(help.status).toBe(0);
  expect(help.stdout).toContain("Example: headsheet make");
  const start = run("npm", ["start", "--silent"], path);
  expect(start.status, start.stderr).toBe(0);
  expect(readdirSync(join(path, "out")).filter((name) => name.endsWith(".pdf")).length).toBeGreaterThanOrEqual(10);
  expect(run("git", ["status", "--porcelain"], path).stdout).toBe("");
});

test("two first runs at once build once each and disturb nobody", () => {
  const path = join(folder, "plain");
  expect(run("rm", ["-rf", join(path, "dist")], path).status).toBe(0);
  const both = run("sh", ["-c", "node bin/headsheet.js --version & node bin/headsheet.js --version; wait"], path);
  expect(both.stdout.trim().split("\n")).toEqual([expect.stringMatching(/^\d/), expect.stringMatching(/^\d/)]);
  expect(readdirSync(path).filter((name) => name.startsWith("dist"))).toEqual(["dist"]);
});

test("without the packages that build it, a clone says in one line what to do", () => {
  const path = clone("bare");
  expect(run("npm", ["ci", "--omit=dev", "--ignore-scripts", "--silent"], path).status).toBe(0);
  expect(run("npm", ["start", "--silent"], path)).toMatchObject({
    status: 2,
    stdout: "",
    stderr: "headsheet is not built, and the packages that build it are not installed: run npm ci, then npm start\n",
  });
});

describe("the packed program", () => {
  const TARBALL = "headsheet-0.1.0.tgz";
  const desk = join(folder, "desk");
  const program = join(desk, "node_modules", "headsheet", "bin", "headsheet.js");
  const bytesUnder = (path: string): number =>
    readdirSync(path, { withFileTypes: true, recursive: true })
      .filter((entry) => entry.isFile())
      .reduce((sum, { parentPath, name }) => sum + statSync(join(parentPath, name)).size, 0);
  /** Packs a folder's package into `to`, and returns the path of the tarball. */
  const pack = (path: string, to: string, ...options: string[]) => {
    mkdirSync(to, { recursive: true });
    const packed = run("npm", ["pack", path, "--silent", "--pack-destination", to, ...options], path);
    expect(packed.status, packed.stderr).toBe(0);
    return join(to, packed.stdout.trim());
  };

  test("is the same from two folders, without caches, maps or the path it was built in", () => {
    const here = join(folder, "plain");
    const first = pack(here, join(folder, "first"));
    expect(first.endsWith(TARBALL)).toBe(true);
    const there = join(folder, "a longer name", "moved");
    mkdirSync(join(folder, "a longer name"));
    renameSync(here, there);
    const second = pack(there, join(folder, "second"));
    const sum = (path: string) => createHash("sha256").update(readFileSync(path)).digest("hex");
    expect(sum(second)).toBe(sum(first));
    expect(statSync(first).size).toBeLessThan(3e6);
    const unpacked = join(folder, "unpacked");
    mkdirSync(unpacked);
    expect(run("tar", ["xzf", first], unpacked).status).toBe(0);
    const files = readdirSync(unpacked, { recursive: true, encoding: "utf8" });
    expect(files.filter((name) => /\.map$|cache|tests|\.ts$/.test(name))).toEqual([]);
    for (const wanted of ["README.md", "LICENSE", "dist/THIRD-PARTY.txt", "schemas/job.schema.json"])
      expect(files).toContain(join("package", wanted));
    expect(run("grep", ["-rlF", folder, "."], unpacked).stdout).toBe("");
  });

  test("installs into an empty folder without a registry: at most 6 packages and 30 MB", () => {
    mkdirSync(desk);
    writeFileSync(join(desk, "package.json"), "{}");
    const beside = ["@hyzyla/pdfium", "nodemailer"].map((name) =>
      pack(join(ROOT, "node_modules", name), join(folder, "beside"), "--ignore-scripts"),
    );
    const packed = [join(folder, "first", TARBALL), ...beside];
    const installed = run("npm", ["install", "--offline", "--no-audit", "--no-fund", "--silent", ...packed], desk);
    expect(installed.status, installed.stderr).toBe(0);
    const packages = run("npm", ["ls", "--all", "--parseable"], desk).stdout.trim().split("\n").slice(1);
    expect(new Set(packages).size).toBeLessThanOrEqual(6);
    expect(bytesUnder(join(desk, "node_modules"))).toBeLessThan(30e6);
  });

  test("runs every command of its help, and makes the bytes that the clone makes", async () => {
    const shell = join(desk, "node_modules", ".bin", "headsheet");
    const help = run(shell, ["--help"], desk).stdout;
    const named = [
      ...help.slice(help.indexOf("Commands:"), help.indexOf("Exit codes:")).matchAll(/^ {2}([a-z]+) /gm),
    ].map(([, name]) => name);
    expect(named.toSorted()).toEqual([...EVERY_COMMAND.map(([name]) => name), "watch"].toSorted());
    copyJobs(join(desk, "jobs", "alder-lane"), "alder-lane");
    writeFileSync(join(desk, "bench.csv"), "lift (in),intake (cfm),exhaust (cfm)\n0.1,42,33\n0.2,83.6,63.4\n");
    for (const [name, args, wanted] of EVERY_COMMAND) {
      const { status, stdout, stderr } = run(shell, [name, ...args], desk);
      expect([name, status, stderr]).toEqual([name, 0, expect.anything()]);
      expect([name, stdout]).toEqual([name, expect.stringMatching(wanted)]);
    }
    const serving = await serve([], desk, [], {}, program);
    expect(await (await fetch(serving.address.split("#")[0]!)).text()).toContain("<title>");
    serving.process.kill("SIGINT");
    expect(await ended(serving)).toBe(0);
    const make = ["make", "jobs/alder-lane/2026-026.yaml", "--out"];
    const [ours, theirs] = [join(folder, "ours"), join(folder, "theirs")];
    expect(headsheet([...make, ours], { cwd: desk }).code).toBe(0);
    expect(run(shell, [...make, theirs], desk).status).toBe(0);
    expect(namesIn(ours).length).toBeGreaterThan(0);
    for (const name of namesIn(ours))
      expect([name, readFileSync(join(theirs, name)).equals(readFileSync(join(ours, name)))]).toEqual([name, true]);
  });
});
