import { expect, test } from "vitest";
import { alignRows, cellsOf, tableAt } from "../../../src/commands/watch/page/table-at.ts";

const LINES = `stages:
  - name: A
    flow: |
      lift  intake
      2.0     49.0

work: x
`.split("\n");
const source = { count: LINES.length, line: (number: number) => LINES[number - 1]! };

test("the lines of a table are told from those around it", () => {
  const found = LINES.map((_, index) => tableAt(source, index + 1));
  const table = { first: 4, last: 5, indent: 6 };
  expect(found).toEqual([undefined, undefined, undefined, table, table, table, undefined, undefined]);
});

test("cells, without a comment", () =>
  expect(cellsOf("  2.0  - # lost")).toEqual([
    { from: 2, to: 5 },
    { from: 7, to: 8 },
  ]));

test("rows of a spreadsheet stand under the head, with points and dashes", () => {
  expect(alignRows("2,0\t49,05\r\n4,0\t\r\n", "      lift  intake", 6)).toEqual([
    "      2.0    49.05",
    "      4.0        -",
  ]);
  expect(alignRows("2.0 49\n4.0 98?", "  lift intake", 2)).toEqual(["  2.0      49", "  4.0     98?"]);
});
