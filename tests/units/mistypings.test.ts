import { expect, test } from "vitest";
import { meantBetween, mistypings } from "../../src/units/mistypings.ts";

test("every pair of neighbours may have been swapped, and the point may be off by one to three places", () => {
  expect(mistypings("12.34")).toEqual([
    "21.34",
    "13.24",
    "12.43",
    "123.4",
    "1.234",
    "1234",
    "0.1234",
    "12340",
    "0.01234",
  ]);
  expect(mistypings("1121").slice(0, 4)).toEqual(["1211", "1112", "11210", "112.1"]);
});

test("digits stay as typed", () => {
  expect(mistypings("380")).toContain("38.0");
  expect(mistypings("0.025")).toContain("0.25");
  expect(mistypings("250")).toContain("0.250");
});

test.each(["", ".", "1.2.3", "-1", "1 in", "12345678901234567"])("nothing is made of `%s`", (typed) => {
  expect(mistypings(typed)).toEqual([]);
});

test("of several the one nearest to the middle", () => {
  expect(meantBetween("0.025", 0.2, 0.3, 1)).toBe("0.25");
  expect(meantBetween("0.025", 0.5, 0.6, 1)).toBeUndefined();
});
