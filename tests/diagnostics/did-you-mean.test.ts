import fc from "fast-check";
import { expect, test } from "vitest";
import { didYouMean, editDistance } from "../../src/diagnostics/did-you-mean.ts";

const KEYS = ["intake", "exhaust", "port_volume", "port_volumes", "throat", "temperature", "test_pressure", "of", "at"];

// Worked by hand; "kitten" to "sitting" is the usual textbook example (3), "ca" to "ac" is one swap.
test.each([
  ["", "", 0],
  ["kitten", "sitting", 3],
  ["ca", "ac", 1],
  ["abc", "", 3],
  ["throat", "thraot", 1],
])("from %j to %j: %d", (from, to, distance) => expect(editDistance(from, to)).toBe(distance));

test.each([
  ["intkae", "intake"],
  ["Exhaust", "exhaust"],
  ["portVolume", "port_volume"],
  ["port-volumes", "port_volumes"],
  ["trhoat", "throat"],
  ["temp", "temperature"],
  ["test pressure", "test_pressure"],
  ["valve", undefined],
  ["x", undefined],
  ["port", undefined], // two begin so
  ["", undefined],
])("%s: %s", (word, meant) => expect(didYouMean(word, KEYS)).toBe(meant));

test("law: a distance is symmetric, and 0 only for the same word", () =>
  fc.assert(
    fc.property(fc.string({ maxLength: 12 }), fc.string({ maxLength: 12 }), (a, b) => {
      expect(editDistance(a, b)).toBe(editDistance(b, a));
      expect(editDistance(a, b) === 0).toBe(a === b);
    }),
    { seed: 1 },
  ));

test("a pasted page is not worth a long search", () => expect(didYouMean("x".repeat(1e6), KEYS)).toBeUndefined());
