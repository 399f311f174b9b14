import { readdirSync } from "node:fs";
import { expect, test } from "vitest";
import { nothingTaken } from "../../src/desk/shelf/share.ts";
import { threadsOf } from "../../src/io/threads.ts";
import { pascals } from "../../src/units/quantity.ts";
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
  const none = () => expect.fail("nothing was done");
  await expect(threads.start("no-such-script.cjs").run({}, none)).rejects.toThrow();
  await expect(threads.start("shelf-share.cjs").run(undefined, none)).rejects.toThrow();
  expect(threadsOf(folder)).toBeUndefined();
});

test("one whose parts cannot be taken fails as well", async () => {
  writeArchive(`${folder}/few`, 40);
  const files = readdirSync(`${folder}/few`, { recursive: true, encoding: "utf8" }).filter((one) =>
    /\d\.yaml$/.test(one),
  );
  const share = { folder: `${folder}/few`, files, reals: [], testPressure: pascals(7000), taken: nothingTaken() };
  let parts = 0;
  const run = threadsOf(ROOT)!
    .start("shelf-share.cjs")
    .run(share, () => {
      parts++;
      throw new Error("no room");
    });
  await expect(run).rejects.toThrow("no room");
  expect(parts).toBeGreaterThan(0);
});
