import { spawnSync } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { starterJob } from "../../src/job/starter/starter.ts";
import { headsheet, namesIn, scratch } from "../cli/run.ts";

const folder = scratch();
const mounts: string[] = [];
const mount = (...args: readonly string[]) => spawnSync("mount", args, { encoding: "utf8" });
afterAll(() => {
  for (const path of mounts.toReversed()) spawnSync("umount", [path]);
});

/** A small disk in memory; why there is none, where mounting is refused. */
function smallDisk(name: string, size: string): { readonly path: string; readonly refused?: string } {
  const path = join(folder, name);
  mkdirSync(path);
  const { status, stderr, error } = mount("-t", "tmpfs", "-o", `size=${size}`, "tmpfs", path);
  if (status === 0) mounts.push(path);
  return status === 0 ? { path } : { path, refused: error?.message ?? stderr.trim() };
}

const free = (path: string) => {
  const { stdout } = spawnSync("df", ["--output=avail", "-k", path], { encoding: "utf8" });
  return Number(stdout.trim().split("\n").at(-1));
};

/** Fills a disk but for so many kB. */
function fill(path: string, leave: number): void {
  writeFileSync(join(path, "filler"), Buffer.alloc((free(path) - leave) * 1024, 1));
}

describe("a full disk", () => {
  const disk = smallDisk("full", "1m");
  test.skipIf(disk.refused)(
    `says so, loses nothing, and leaves no half file (mounting${disk.refused ? ` refused: ${disk.refused}` : " allowed"})`,
    () => {
      const cwd = disk.path;
      for (const job of ["a", "b"]) expect(headsheet(["new", `jobs/${job}.yaml`], { cwd }).code).toBe(0);
      const first = headsheet(["make"], { cwd });
      expect(first.code).toBe(0);
      const sheets = first.out.trim().split("\n");
      const before = sheets.map((sheet) => readFileSync(join(cwd, sheet)));
      const size = Math.ceil(statSync(join(cwd, sheets[0] as string)).size / 1024);

      fill(cwd, 4);
      const full = headsheet(["make", "--paper", "Letter"], { cwd });
      expect([full.code, full.out]).toEqual([2, ""]);
      expect(full.err).toContain("the disk is full; what was there before is there still: `");
      expect(full.err).toContain("0 sheets written, 2 sheets could not be written");
      expect(full.err).not.toContain("    at ");
      for (const [i, sheet] of sheets.entries())
        expect(readFileSync(join(cwd, sheet)).equals(before[i] as Buffer)).toBe(true);
      expect(namesIn(join(cwd, "out"))).toEqual(sheets.map((sheet) => sheet.slice("out/".length)));

      // A new job does not fit: no empty file is left that would be in the way the next time.
      rmSync(join(cwd, "filler"));
      fill(cwd, 0);
      const fresh = headsheet(["new", "jobs/c.yaml"], { cwd });
      expect([fresh.code, fresh.out]).toEqual([2, ""]);
      expect(fresh.err).toContain("the disk is full");
      expect(readdirSync(join(cwd, "jobs"))).toEqual(["a.yaml", "b.yaml"]);

      // Room for one more sheet, while two are to be written.
      rmSync(join(cwd, "filler"));
      mkdirSync(join(cwd, "other"));
      fill(cwd, size + 8);
      const half = headsheet(["make", "--out", "other"], { cwd });
      expect(half.code).toBe(2);
      expect(half.out).toBe(`${sheets[0]?.replace("out/", "other/")}\n`);
      expect(readFileSync(join(cwd, half.out.trim())).equals(before[0] as Buffer)).toBe(true);
      expect(namesIn(join(cwd, "other"))).toHaveLength(1);

      // With room again, all is well.
      rmSync(join(cwd, "filler"));
      expect(headsheet(["make"], { cwd }).code).toBe(0);

      // The register loses no line, gets no half one, and nothing is issued without one.
      const register = () => readFileSync(join(cwd, "jobs/issued.csv"), "utf8");
      const issue = (job: string) =>
        writeFileSync(
          join(cwd, "jobs", `${job}.yaml`),
          starterJob({ number: job, issued: "2026-03-14" }).replace(/^draft: true.*\n/m, ""),
        );
      issue("a");
      expect(headsheet(["make", "jobs/a.yaml"], { cwd }).code).toBe(0);
      const lines = register();
      issue("b");
      fill(cwd, 0);
      expect(headsheet(["make", "jobs/b.yaml"], { cwd }).code).toBe(2);
      expect(register()).toMatch(new RegExp(`^${lines}(2026-03-14,b,.*\n)?$`));
      rmSync(join(cwd, "filler"));
      expect(headsheet(["make"], { cwd }).code).toBe(0);
      expect(
        register()
          .trimEnd()
          .split("\n")
          .map((line) => line.split(",")[1]),
      ).toEqual(["ticket", "a", "b"]);
    },
  );
});

describe("a read-only folder", () => {
  // Permission bits do not bind root, who may be running this: the disk itself is made read-only.
  const disk = smallDisk("read-only", "4m");
  test.skipIf(disk.refused)(
    `says so and loses nothing; check and figures work there (mounting${disk.refused ? ` refused: ${disk.refused}` : " allowed"})`,
    () => {
      const cwd = disk.path;
      expect(headsheet(["new", "jobs/a.yaml"], { cwd }).code).toBe(0);
      const [sheet] = headsheet(["make"], { cwd }).out.trim().split("\n") as [string];
      const before = readFileSync(join(cwd, sheet));
      expect(mount("-o", "remount,ro", cwd).status).toBe(0);
      const { code, out, err } = headsheet(["make", "--paper", "Letter"], { cwd });
      expect([code, out]).toEqual([2, ""]);
      expect(err).toContain(`the disk is read-only: \`${join(cwd, sheet)}\``);
      expect(err).not.toContain("    at ");
      expect(readFileSync(join(cwd, sheet)).equals(before)).toBe(true);
      expect(headsheet(["new", "jobs/b.yaml"], { cwd }).code).toBe(2);
      expect(headsheet(["check"], { cwd }).code).toBe(0);
      expect(headsheet(["figures", "jobs/a.yaml"], { cwd }).code).toBe(0);
    },
  );
});

test("a missing folder is reported as no failure of the program", () => {
  const cwd = join(folder, "gone");
  mkdirSync(cwd);
  const script = `cd "$1" && rmdir "$1" && exec "$2" "$3" make`;
  const program = new URL("../../bin/headsheet.js", import.meta.url).pathname;
  const { status, stdout, stderr } = spawnSync("sh", ["-c", script, "sh", cwd, process.execPath, program], {
    encoding: "utf8",
  });
  expect([status, stdout]).toEqual([2, ""]);
  expect(stderr).toMatch(/^error: /);
});

test("a reader that goes away stops no batch; a full output is a failure", () => {
  const cwd = join(folder, "readers");
  mkdirSync(cwd);
  for (const job of ["a", "b", "c"]) expect(headsheet(["new", `jobs/${job}.yaml`], { cwd }).code).toBe(0);
  const program = new URL("../../bin/headsheet.js", import.meta.url).pathname;
  const sh = (script: string) =>
    spawnSync("sh", ["-c", script, "sh", process.execPath, program], { cwd, encoding: "utf8" });
  sh('{ "$1" "$2" make; echo $? > code; } | true');
  expect(readFileSync(join(cwd, "code"), "utf8")).toBe("0\n");
  expect(namesIn(join(cwd, "out"))).toHaveLength(3);
  expect(sh('"$1" "$2" figures jobs/a.yaml > /dev/full').status).toBe(2);
});
