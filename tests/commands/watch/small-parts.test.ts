import fc from "fast-check";
import { decode } from "fast-png";
import { expect, test } from "vitest";
import { lineDifference } from "../../../src/commands/watch/page/line-difference.ts";
import { problemsOf } from "../../../src/commands/watch/problems.ts";
import { createSerialQueue } from "../../../src/commands/watch/serial-queue.ts";
import { createSheetCache } from "../../../src/commands/watch/sheet-cache.ts";
import { encodeFastPng } from "../../../src/raster/encode-png.ts";

test("a picture packed in haste is the same picture to another reader of PNG", () =>
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 20 }), fc.integer({ min: 1, max: 20 }), fc.nat(), (width, height, seed) => {
      const rgba = Uint8Array.from({ length: width * height * 4 }, (_, i) =>
        i % 4 === 3 ? 255 : (i * 31 + seed) % 256,
      );
      const read = decode(encodeFastPng(width, height, rgba), { checkCrc: true });
      expect([read.width, read.height, read.channels, read.depth]).toEqual([width, height, 3, 8]);
      expect([...read.data]).toEqual([...rgba].filter((_, i) => i % 4 !== 3));
    }),
  ));

test("lines that differ, from both sides, and nothing else but their neighbours", () => {
  const shown = (mine: string, theirs: string) =>
    lineDifference(mine, theirs).map(({ side, text }) => `${side} ${text}`);
  expect(shown("a\nb\nc", "a\nb\nc")).toEqual([]);
  expect(shown("a\nb\nc", "a\nx\nc")).toEqual(["both a", "theirs x", "mine b", "both c"]);
  expect(shown("a\nb", "a\nb\nc")).toEqual(["both b", "theirs c"]);
  expect(shown("1\n2\n3\n4\n5\n6", "x\n2\n3\n4\n5\ny")).toEqual([
    "theirs x",
    "mine 1",
    "both 2",
    "gap ",
    "both 5",
    "theirs y",
    "mine 6",
  ]);
  expect(shown("a\r\nb", "a\nb")).toEqual([]);
});

test("what differs is enough to queue one text into the other", () =>
  fc.assert(
    fc.property(
      fc.array(fc.constantFrom("a", "b", "c", "d")),
      fc.array(fc.constantFrom("a", "b", "c", "d")),
      (mine, theirs) => {
        const lines = lineDifference(mine.join("\n"), theirs.join("\n"));
        const count = (side: string) => lines.filter((line) => line.side === side).length;
        const [a, b] = [Math.max(1, mine.length), Math.max(1, theirs.length)];
        expect(a - count("mine")).toBe(b - count("theirs"));
      },
    ),
  ));

test("problems keep order, words and place, made visible", () => {
  const text = "job: 1\r\nhead: \u202ex\r\n";
  const at = { file: "j.yaml", start: 14, end: 16 };
  const [one, two] = problemsOf(
    [
      { severity: "error", code: "a/b", message: "bad\u202e thing", at, hint: "write\u001b[31m it" },
      { severity: "warning", code: "c/d", message: "elsewhere", at: { file: "shop.yaml", start: 0, end: 1 } },
    ],
    new Map([
      ["j.yaml", text],
      ["shop.yaml", "x"],
    ]),
    "j.yaml",
  );
  expect(one).toMatchObject({
    message: "bad thing",
    hint: "write it",
    place: { file: "j.yaml", line: 2, column: 7 },
    span: { from: { line: 2, ch: 6 }, to: { line: 2, ch: 8 } },
    excerpt: { text: "head: x" },
  });
  expect(two!.span).toBeUndefined();
  expect(two!.place).toEqual({ file: "shop.yaml", line: 1, column: 1 });
});

test("one task after the other, also after one that failed", async () => {
  const queue = createSerialQueue();
  const done: number[] = [];
  const task = (n: number) => async () => {
    await new Promise((later) => setTimeout(later, 5 - n));
    if (n === 1) throw new Error("no");
    done.push(n);
  };
  const all = [0, 1, 2, 3].map((n) => queue.run(task(n)));
  expect(queue.waiting()).toBe(4);
  expect((await Promise.allSettled(all)).map(({ status }) => status)).toEqual([
    "fulfilled",
    "rejected",
    "fulfilled",
    "fulfilled",
  ]);
  expect(done).toEqual([0, 2, 3]);
  expect(queue.waiting()).toBe(0);
});

test("the shelf gives way to weight, oldest first, but never to the sheets in sight", () => {
  const shelf = createSheetCache(100);
  const heavy = (n: number) => shelf.put({ name: `${n}`, pages: 1, pdf: new Uint8Array(50).fill(n) });
  const first = heavy(0);
  const second = heavy(1);
  for (let n = 2; n < 16; n++) heavy(n);
  expect(shelf.get(first)?.name).toBe("0");
  heavy(16);
  expect(shelf.get(first)?.name).toBe("0");
  expect(shelf.get(second)).toBeUndefined();
});
