import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { hostname } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { disk } from "../../src/io/disk.ts";
import { inProcess, namesIn, scratch } from "../cli/run.ts";

const folder = scratch();

/** A desk with starter jobs of these names. */
async function desk(name: string, jobs: readonly string[]): Promise<string> {
  const cwd = join(folder, name);
  mkdirSync(cwd);
  for (const job of jobs) expect((await inProcess(["new", `jobs/${job}.yaml`], cwd)).code).toBe(0);
  return cwd;
}
const sheets = (cwd: string) => namesIn(join(cwd, "out"));
const made = async (cwd: string) => {
  const { code, out } = await inProcess(["make"], cwd);
  expect(code).toBe(0);
  return out.trim().split("\n");
};
const change = (path: string, from: string, to: string) => {
  const text = readFileSync(path, "utf8");
  expect(text).toContain(from);
  writeFileSync(path, text.replace(from, to));
};

test("a sheet that cannot be written does not stop the others; what was written is whole, and the code is 2", async () => {
  const cwd = await desk("blocked", ["a", "b", "c"]);
  const paths = await made(cwd);
  const b = join(cwd, paths[1] as string);
  const other = join(cwd, "other");
  mkdirSync(join(other, b.slice(join(cwd, "out").length)), { recursive: true });
  const { code, out, err } = await inProcess(["make", "--out", "other"], cwd);
  expect(code).toBe(2);
  expect(out.trim().split("\n")).toEqual([paths[0], paths[2]].map((path) => path?.replace("out/", "other/")));
  for (const path of out.trim().split("\n"))
    expect(readFileSync(join(cwd, path)).equals(readFileSync(join(cwd, path.replace("other/", "out/"))))).toBe(true);
  expect(err).toContain("error: a folder stands where the file should go");
  expect(err).toContain("2 sheets written, 1 sheet could not be written");
  expect(readdirSync(other).filter((name) => name.endsWith(".tmp"))).toEqual([]);
});

test("the second of two sheets of one job fails: the first is whole, the code is 2", async () => {
  const cwd = await desk("second", ["a"]);
  change(join(cwd, "jobs/a.yaml"), "stages:", "sheet: [handover, attachment]\nstages:");
  const [first, second] = (await made(cwd)) as [string, string];
  mkdirSync(join(cwd, second.replace("out/", "other/")), { recursive: true });
  const { code, out } = await inProcess(["make", "--out", "other"], cwd);
  expect(code).toBe(2);
  expect(out).toBe(`${first.replace("out/", "other/")}\n`);
  expect(readFileSync(join(cwd, out.trim())).equals(readFileSync(join(cwd, first)))).toBe(true);
});

test("a sheet that stands as a link is replaced, and what it led to is left alone", async () => {
  const cwd = await desk("link", ["a"]);
  const [path] = (await made(cwd)) as [string];
  const whole = readFileSync(join(cwd, path));
  writeFileSync(join(cwd, "precious"), "precious");
  mkdirSync(join(cwd, "linked"));
  const link = join(cwd, path.replace("out/", "linked/"));
  symlinkSync(join(cwd, "precious"), link);
  expect((await inProcess(["make", "--out", "linked"], cwd)).code).toBe(0);
  expect(readFileSync(join(cwd, "precious"), "utf8")).toBe("precious");
  expect(() => readlinkSync(link)).toThrow();
  expect(readFileSync(link).equals(whole)).toBe(true);
});

test("what a killed run left half written is gone after the next", async () => {
  const cwd = await desk("litter", ["a"]);
  mkdirSync(join(cwd, "out"));
  const host = hostname().replace(/[^A-Za-z0-9]+/g, "-");
  writeFileSync(join(cwd, "out", `.headsheet-${host}-${2 ** 22 + 1}-0.tmp`), "half");
  writeFileSync(join(cwd, "out", ".mine.tmp"), "mine");
  const [path] = (await made(cwd)) as [string];
  expect(sheets(cwd)).toEqual([".mine.tmp", path.slice("out/".length)]);
});

test("a job that vanishes after it was found is refused by name, and the rest are made", async () => {
  const cwd = await desk("vanished", ["a", "b"]);
  let looked = 0;
  const gone = join(cwd, "jobs/a.yaml");
  const { code, out, err } = await inProcess(["make"], cwd, {
    ...disk,
    readFile: (path, most) => (path === gone && looked++ > 0 ? { kind: "missing" } : disk.readFile(path, most)),
  });
  expect(code).toBe(1);
  expect(err).toContain("there is no file `jobs/a.yaml`");
  expect(err).toContain("1 sheet written, 1 job refused");
  expect(out).toMatch(/^out\/b_rev1_/);
});
test("tickets that look alike in a file's name have sheets of their own, now and in a later run", async () => {
  const cwd = await desk("alike", ["a", "b"]);
  change(join(cwd, "jobs/a.yaml"), 'job: "a"', 'job: "A/1"');
  change(join(cwd, "jobs/b.yaml"), 'job: "b"', 'job: "A-1"');
  const [slash, dash] = (await made(cwd)) as [string, string];
  expect(dash).toMatch(/^out\/a-1_rev1_/);
  expect(slash).toMatch(/^out\/a-1-[0-9a-f]{6}_rev1_/);
  const before = readFileSync(join(cwd, slash));
  expect((await inProcess(["make", "jobs/b.yaml"], cwd)).code).toBe(0);
  expect(readFileSync(join(cwd, slash)).equals(before)).toBe(true);
});

test("a path given on the command line may hold anything: none of it reaches the terminal as a control sequence", async () => {
  const cwd = await desk("escapes", []);
  const name = "jobs/\u001b[31m\u202egpj\u0007.yaml";
  for (const args of [
    ["check", name],
    ["make", name],
    ["figures", name],
    ["make", "jobs/\u001b]0;title\u0007"],
    ["new", "\u001b[2J.txt"],
  ]) {
    const { err, code } = await inProcess(args, cwd);
    expect(code).toBeGreaterThan(0);
    expect(err).toMatch(/there is no file|ends in \.yaml/);
    expect(err).not.toMatch(/[\u0007\u001b\u202e]/);
  }
  expect(existsSync(join(cwd, "out"))).toBe(false);
});

test("a sheet keeps the rights its owner gave it", async () => {
  const cwd = await desk("rights", ["a"]);
  const [path] = (await made(cwd)) as [string];
  chmodSync(join(cwd, path), 0o600);
  await made(cwd);
  expect(statSync(join(cwd, path)).mode & 0o777).toBe(0o600);
});
