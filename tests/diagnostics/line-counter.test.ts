import fc from "fast-check";
import { expect, test } from "vitest";
import { placeOf, splitLines } from "../../src/diagnostics/line-counter.ts";

const place = (text: string, offset: number) => {
  const { line, column } = placeOf(splitLines(text), offset);
  return `${line}:${column}`;
};

test("lines and columns from 1", () => {
  expect(place("ab\ncd", 0)).toBe("1:1");
  expect(place("ab\ncd", 4)).toBe("2:2");
  expect(place("ab\ncd", 2)).toBe("1:3");
});
test("Windows line ends belong to their line", () => expect(place("ab\r\ncd", 4)).toBe("2:1"));
test("a byte order mark takes no column", () => expect(place("\ufeffab", 1)).toBe("1:1"));
test("a character outside the basic plane is one column", () => expect(place("😀b", 2)).toBe("1:2"));
test("offsets outside the text go to its nearest end", () => {
  expect(place("ab", -5)).toBe("1:1");
  expect(place("ab\n", 99)).toBe("2:1");
});

test("law: the line of an offset is one more than the line breaks before it", () =>
  fc.assert(
    fc.property(fc.string({ unit: fc.constantFrom("a", "\n", "\r\n", " ") }), fc.nat(40), (text, offset) => {
      const at = Math.min(offset, text.length);
      expect(placeOf(splitLines(text), at).line).toBe(text.slice(0, at).split("\n").length);
    }),
    { seed: 1 },
  ));
