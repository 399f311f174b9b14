import { mkdirSync, renameSync, rmSync, statSync, utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, describe, expect, test } from "vitest";
import { type FileWatch, watchFiles } from "../../src/io/watch-files.ts";
import { scratch } from "../cli/run.ts";

const folder = scratch();
const pause = (ms: number) => new Promise((later) => setTimeout(later, ms));
let following: FileWatch | undefined;
afterEach(() => following?.close());

/** Follows one path, and says how often a change was told after something was done. */
async function told(name: string, act: (path: string) => void, options: { poll?: number; calls?: boolean }) {
  const path = join(folder, name);
  let times = 0;
  following = watchFiles(() => times++, options);
  following.follow([path]);
  act(path);
  for (let waited = 0; times === 0 && waited < 200; waited += 10) await pause(10);
  await pause(50);
  return times;
}
let count = 0;
const fresh = (text?: string) => {
  const name = `file-${count++}`;
  if (text !== undefined) writeFileSync(join(folder, name), text);
  return name;
};

describe.each([
  ["by the disk's calls", { poll: 60_000 }],
  ["by polling alone", { poll: 20, calls: false }],
])("%s", (_, options) => {
  test("a file written over", async () => {
    expect(await told(fresh("one"), (path) => writeFileSync(path, "two"), options)).toBe(1);
  });
  test("a file put in its place by rename", async () => {
    const act = (path: string) => {
      writeFileSync(`${path}~`, "two");
      renameSync(`${path}~`, path);
    };
    expect(await told(fresh("one"), act, options)).toBe(1);
  });
  test("a file taken away, and one that comes to be", async () => {
    expect(await told(fresh("one"), (path) => rmSync(path), options)).toBe(1);
    following?.close();
    expect(await told(fresh(), (path) => writeFileSync(path, "one"), options)).toBe(1);
  });
  test("not a file that was only touched, or written again as it was", async () => {
    expect(await told(fresh("one"), (path) => utimesSync(path, 1e9, 1e9), options)).toBe(0);
    following?.close();
    expect(await told(fresh("one"), (path) => writeFileSync(path, "one"), options)).toBe(0);
  });
  test("a file of the same size under the same time, while it is young", async () => {
    const name = fresh("one");
    const now = statSync(join(folder, name)).mtime;
    utimesSync(join(folder, name), now, now);
    const act = (path: string) => {
      writeFileSync(path, "two");
      utimesSync(path, now, now);
    };
    expect(await told(name, act, options)).toBe(1);
  });
});

test("a folder that comes to be later, with the file in it", async () => {
  const act = (path: string) => {
    mkdirSync(join(path, ".."));
    writeFileSync(path, "one");
  };
  expect(await told(join("later", "file"), act, { poll: 20 })).toBe(1);
});

test("nothing once it is closed", async () => {
  const name = fresh("one");
  let times = 0;
  const closed = watchFiles(() => times++, { poll: 10 });
  closed.follow([join(folder, name)]);
  closed.close();
  writeFileSync(join(folder, name), "two");
  await pause(80);
  expect(times).toBe(0);
});
