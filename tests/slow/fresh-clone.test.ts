import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { ROOT, scratch } from "../cli/run.ts";

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
