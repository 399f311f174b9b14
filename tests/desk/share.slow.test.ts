import { beforeAll, describe, expect, test } from "vitest";
import { askedOnce } from "../../src/desk/shelf/asked-once.ts";
import { openShelf, readShelf, shopOf } from "../../src/desk/shelf/read-shelf.ts";
import type { Share } from "../../src/desk/shelf/share.ts";
import { type WorkedFile, workOutShare } from "../../src/desk/shelf/work-out-share.ts";
import type { World } from "../../src/desk/world.ts";
import { disk } from "../../src/io/disk.ts";
import { pascals } from "../../src/units/quantity.ts";
import { writeArchive } from "../archive/write-archive.ts";
import { quietWorld, scratch } from "../cli/run.ts";

const folder = scratch();
const few = scratch();
const JOBS = 230;
/** The shop.yaml among them is looked into as well. */
const SHOP = 1;
const read = async (more: Partial<World> = {}, place = folder) => {
  const world = { ...quietWorld(place), ...more };
  const shelf = openShelf(place, false, world);
  return readShelf(shelf, await shopOf(shelf, world), pascals(7000), world, (entry) => entry);
};
let alone: Awaited<ReturnType<typeof read>> = [];

beforeAll(async () => {
  writeArchive(folder, JOBS);
  alone = await read();
}, 60_000);

describe("a shelf that several threads work out", () => {
  test("is what one works out, in the same order, and each job is worked out once", async () => {
    const took: number[] = [];
    const shared = await read({
      threads: {
        free: 5,
        start: () => ({
          run: async (share, take) => {
            const done = [...workOutShare(share as Share, askedOnce(disk))].map(({ index, kept }) => [index, kept]);
            took.push(done.length);
            for (let from = 0; from < done.length; from += 50) take(done.slice(from, from + 50));
          },
        }),
      },
    });
    expect(shared).toEqual(alone);
    // A thread for each hundred jobs. Here they run one after the other, so the first takes all.
    expect(took).toEqual([JOBS + SHOP, 0]);
  });

  test("is whole where a thread fails, or took jobs and brought none", async () => {
    const lost = {
      free: 2,
      start: () => ({
        run: async (share: unknown) => {
          Atomics.add((share as Share).taken, 0, 90);
          throw new Error("out of memory");
        },
      }),
    };
    expect(await read({ threads: lost })).toEqual(alone);
  });

  test("is whole where a thread fails after some of what it took", async () => {
    const failing = {
      free: 1,
      start: () => ({
        run: async (share: unknown, take: (part: unknown) => void) => {
          const done = workOutShare(share as Share, askedOnce(disk));
          for (let k = 0; k < 70; k++) {
            const { index, kept } = done.next().value as WorkedFile;
            take([[index, kept]]);
          }
          throw new Error("out of memory");
        },
      }),
    };
    expect(await read({ threads: failing })).toEqual(alone);
  });

  test("asks for no thread where there are few jobs to work out", async () => {
    writeArchive(few, 12);
    const threads = { free: 4, start: () => expect.fail("twelve jobs are not worth a thread") };
    expect(await read({ threads }, few)).toHaveLength(12);
  });
});
