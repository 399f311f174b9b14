import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { wrap } from "../../src/layout/wrap.ts";
import { fixedMeasure } from "./fixed-measure.ts";

fc.configureGlobal({ seed: 20260314 });

const lines = (text: string, width: number) =>
  wrap([{ text, weight: "regular" }], 10, width, fixedMeasure).map((line) => line.pieces.map((p) => p.text).join("|"));

describe("wrap: 10 pt, so 5 pt a character", () => {
  test("fills lines greedily, breaks at spaces and line ends", () => {
    expect(lines("one two three", 35)).toEqual(["one two", "three"]);
    expect(lines("one\ntwo", 100)).toEqual(["one", "two"]);
  });
  test("leaves no hole where a line is empty, at the start, within or at the end", () => {
    expect(lines("\none", 100)).toEqual(["one"]);
    expect(lines("one\n\ntwo\n", 100)).toEqual(["one", "two"]);
    expect(lines("  one  ", 15)).toEqual(["one"]);
    expect(lines("", 100)).toEqual([]);
  });
  test("never at a no-break space", () =>
    expect(lines("at 28\u00a0inH2O now", 45)).toEqual(["at", "28\u00a0inH2O", "now"]));
  test("cuts a word only when it is wider than the line", () =>
    expect(lines("abcdefgh ij", 20)).toEqual(["abcd", "efgh", "ij"]));
  test("two weights on one line are two pieces", () => {
    const phrases = [
      { text: "Not done:", weight: "semibold" },
      { text: "jackets", weight: "regular" },
    ] as const;
    expect(wrap(phrases, 10, 200, fixedMeasure)[0]!.pieces).toEqual([
      { text: "Not done:", weight: "semibold", x: 0, width: 45 },
      { text: "jackets", weight: "regular", x: 50, width: 35 },
    ]);
  });
  test("loses nothing and never runs over", () =>
    fc.assert(
      fc.property(
        fc.array(fc.stringMatching(/^[a-z]{1,30}$/), { maxLength: 40 }),
        fc.integer({ min: 6, max: 200 }),
        (words, width) => {
          const set = wrap([{ text: words.join(" "), weight: "regular" }], 10, width, fixedMeasure);
          for (const line of set) expect(line.width).toBeLessThanOrEqual(width + 1e-6);
          expect(set.flatMap((line) => line.pieces.map((p) => p.text.replaceAll(" ", ""))).join("")).toBe(
            words.join(""),
          );
        },
      ),
    ));
});
