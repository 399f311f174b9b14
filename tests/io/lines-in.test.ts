import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { linesIn } from "../../src/io/lines-in.ts";

const folder = mkdtempSync(join(tmpdir(), "headsheet-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const path = join(folder, "a");

const lines = (from = path) => {
  const all: string[] = [];
  for (const line of linesIn(from)) all.push(line.toString("latin1"));
  return all;
};

test.each([
  ["nothing", []],
  ["one without an end", ["a"]],
  ["one", ["a\n"]],
  ["empty ones", ["\n", "\n"]],
  ["some, the last without an end", ["a\n", "", "bc\n", "d"].filter(Boolean)],
  // Lines over the edges of what is read at once, and ones that are longer.
  ["many", Array.from({ length: 3000 }, (_, k) => `${"x".repeat((k * 37) % 911)}\n`)],
  ["long ones", [`${"a".repeat(900_001)}\n`, "b\n", `${"c".repeat(300_000)}\n`, "d".repeat(262_144)]],
  ["as long as what is read at once", [`${"a".repeat(256 * 1024 - 1)}\n`, `${"b".repeat(256 * 1024)}\n`]],
])("lines: %s", (_, wanted) => {
  writeFileSync(path, wanted.join(""));
  expect(lines()).toEqual(wanted);
});

test("nothing comes of a file that is not there, of a folder, of a link or of a pipe", () => {
  writeFileSync(path, "a\n");
  symlinkSync(path, join(folder, "link"));
  expect(spawnSync("mkfifo", [join(folder, "pipe")]).status).toBe(0);
  for (const name of ["none", "", "link", "pipe"]) expect(lines(join(folder, name))).toEqual([]);
});

test("whoever has enough may stop, before the first as well", () => {
  writeFileSync(path, "a\nb\n");
  const started = linesIn(path);
  expect(started.next().value?.toString()).toBe("a\n");
  started.return();
  expect(started.next().done).toBe(true);
  expect(linesIn(path).return().done).toBe(true);
});
