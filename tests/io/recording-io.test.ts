import { expect, test } from "vitest";
import type { Io } from "../../src/io/io.ts";
import { overlayIo } from "../../src/io/overlay-io.ts";
import { createReplay, recordIo } from "../../src/io/recording-io.ts";
import { memoryWorld } from "../project/memory-world.ts";

const files = { "/j/a": "one", "/j/b": "two", "/j/sub/c": "three" };
const ask = (io: Io) => {
  io.stat("/j/a");
  io.stat("/j/sub");
  io.realPath("/j/none");
  io.readFile("/j/a", 10);
  io.readFile("/j/a", 2);
  io.readFile("/j/none", 10);
  io.readTextFile("/j/b");
  io.listFolder("/j");
};

test("recorded queries hold while every result is the same, whatever else changes", () => {
  const recorded = recordIo(memoryWorld(files));
  ask(recorded.io);
  ask(recorded.io);
  const queries = recorded.queries();
  expect(queries).toHaveLength(8);
  const holds = (now: Readonly<Record<string, string>>) => createReplay(memoryWorld(now))(queries);
  expect(holds(files)).toBe(true);
  expect(holds({ ...files, "/elsewhere": "new", "/j/sub/c": "other" })).toBe(true);
  expect(holds({ ...files, "/j/a": "ONE" })).toBe(false);
  expect(holds({ ...files, "/j/a": "ones" })).toBe(false);
  expect(holds({ ...files, "/j/b": "TWO" })).toBe(false);
  expect(holds({ ...files, "/j/none": "" })).toBe(false);
  expect(holds({ ...files, "/j/d": "" })).toBe(false);
  expect(holds({ "/j/a": "one", "/j/sub/c": "three" })).toBe(false);
});

test("a query that many records hold is run once", () => {
  const world = memoryWorld(files);
  let reads = 0;
  const counting: Io = { ...world, readFile: (...asked) => [reads++, world.readFile(...asked)][1] as never };
  const holds = createReplay(counting);
  const queries = [0, 1, 2].map(() => {
    const recorded = recordIo(world);
    recorded.io.readFile("/j/a", 10);
    return recorded.queries();
  });
  expect(queries.map(holds)).toEqual([true, true, true]);
  expect(reads).toBe(1);
});

test("a path is passed on before it is read", () => {
  const order: string[] = [];
  const world = memoryWorld(files);
  const { io } = recordIo(
    { ...world, stat: (path) => [order.push(`stat ${path}`), world.stat(path)][1] as never },
    (path) => order.push(`before ${path}`),
  );
  io.stat("/j/a");
  io.readTextFile("/j/b");
  expect(order).toEqual(["before /j/a", "stat /j/a"]);
});

test("an overlay has another text at one path, up to the size asked for", () => {
  const io = overlayIo(memoryWorld(files), "/j/a", "äh");
  expect(io.readFile("/j/a", 3)).toEqual({ kind: "read", bytes: new TextEncoder().encode("äh") });
  expect(io.readFile("/j/a", 2)).toEqual({ kind: "too-large", size: 3 });
  expect(io.readFile("/j/b", 3)).toMatchObject({ kind: "read" });
});
