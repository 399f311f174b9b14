import { expect, test } from "vitest";
import { splitFigure } from "../../src/layout/parts/table-columns.ts";

test.each([
  ["212.4", "212", ".4"],
  ["\u22123.25", "\u22123", ".25"],
  ["+4", "+4", ""],
  ["\u00b1 0.8", "\u00b1 0", ".8"],
  ["1\u2009250.5", "1\u2009250", ".5"],
  ["4.7 \u00b1 1.3", "4", ".7 \u00b1 1.3"],
  ["\u2013", "\u2013", ""],
])("%s parts at its decimals", (text, whole, rest) => expect(splitFigure(text)).toEqual({ whole, rest }));

test("words have no decimals", () => {
  expect(splitFigure("not measured")).toBeUndefined();
  expect(splitFigure("M10 × 1.25")).toBeUndefined();
});
