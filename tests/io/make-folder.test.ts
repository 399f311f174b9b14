import { existsSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { makeFolder } from "../../src/io/make-folder.ts";
import { scratch } from "../cli/run.ts";

const folder = scratch();

test("a folder is made with its parents, and made twice", () => {
  for (let round = 0; round < 2; round++) makeFolder(join(folder, "a/b/c"));
  expect(existsSync(join(folder, "a/b/c"))).toBe(true);
});

test("where none can be made, that is said and does not take for ever", () => {
  writeFileSync(join(folder, "file"), "");
  const places: readonly [string, RegExp][] = [
    [join(folder, "file"), /ENOTDIR/],
    [join(folder, "file/below"), /ENOTDIR/],
    ["/proc/x/y", /ENOENT|EACCES|EPERM/],
  ];
  for (const [path, code] of places) {
    let thrown: NodeJS.ErrnoException | undefined;
    try {
      makeFolder(path);
    } catch (error) {
      thrown = error as NodeJS.ErrnoException;
    }
    expect([path, thrown?.code]).toEqual([path, expect.stringMatching(code)]);
  }
});
