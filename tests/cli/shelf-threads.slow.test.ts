import { expect, test } from "vitest";
import { threadsOf } from "../../src/io/threads.ts";
import { writeArchive } from "../archive/write-archive.ts";
import { headsheet, inProcess, ROOT, scratch } from "./run.ts";

const folder = scratch();

test("the built program's threads work out what one thread of the sources does", { timeout: 300_000 }, async () => {
  writeArchive(`${folder}/jobs`, 420);
  const built = headsheet(["shelf", "--json", "--no-cache"], { cwd: folder });
  const { code, out } = await inProcess(["shelf", "--json", "--no-cache"], folder);
  expect(built.code).toBe(code);
  expect(JSON.parse(built.out)).toEqual(JSON.parse(out));
});

test("a thread that fails says so, and is not waited for", async () => {
  const threads = threadsOf(ROOT)!;
  await expect(threads.start("no-such-script.cjs").run({})).rejects.toThrow();
  await expect(threads.start("shelf-share.cjs").run(undefined)).rejects.toThrow();
  expect(threadsOf(folder)).toBeUndefined();
});
