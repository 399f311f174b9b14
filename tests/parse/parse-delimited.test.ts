import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseDelimited } from "../../src/parse/parse-delimited.ts";

const cells = (text: string) => parseDelimited("r.csv", text).rows.map((row) => row.cells.map((cell) => cell.text));

test.each([
  ["comma", "lift,intake\n0.1,40.1\n"],
  ["semicolon", "lift;intake\n0.1;40.1\n"],
  ["tab", "lift\tintake\n0.1\t40.1\n"],
  ["Windows, with a byte order mark and blanks", "\ufefflift , intake\r\n\r\n 0.1 , 40.1 \r\n"],
  ["quotes", '"lift","intake"\n"0.1" , "40.1"\n'],
])("%s", (_, text) =>
  expect(cells(text)).toEqual([
    ["lift", "intake"],
    ["0.1", "40.1"],
  ]),
);

test("a semicolon wins over commas inside numbers", () =>
  expect(cells("lift;intake\n0,1;40,1\n")[1]).toEqual(["0,1", "40,1"]));
test("a doubled quote is one, a separator inside quotes is text", () =>
  expect(cells('a,b\n"x ""y"", z",1\n')[1]).toEqual(['x "y", z', "1"]));
test("empty cells stay", () => expect(cells("a,b,c\n1,,\n")[1]).toEqual(["1", "", ""]));

describe("what follows #", () => {
  const row = (text: string) =>
    parseDelimited("r.csv", text).rows.map(({ cells: own, comment }) => [own.map((one) => one.text), comment?.text]);
  test("is the row's, whatever commas are in it", () =>
    expect(row("lift,intake\n0.1,- # smudged, wet\n0.2,40,# as read\n# a line of its own\n")).toEqual([
      [["lift", "intake"], undefined],
      [["0.1", "-"], "smudged, wet"],
      [["0.2", "40"], "as read"],
      [[], "a line of its own"],
    ]));
});

test.each([
  ['a,b\n"x,1\n', '"x,1', 'the cell that begins with `"` has no closing `"` on its line'],
  ['a,b\n"x"y,1\n', "y", "text follows after the closing quote of a cell"],
])("%j is reported", (text, words, message) => {
  const [fault] = parseDelimited("r.csv", text).diagnostics;
  expect(fault).toMatchObject({ code: "source/quotes", message });
  expect(text.slice(fault!.at!.start, fault!.at!.end)).toBe(words);
});

test("a file too large is refused", () =>
  expect(parseDelimited("r.csv", "1,".repeat(200_000)).diagnostics[0]?.code).toBe("source/too-large"));

test("law: no text throws, and an unquoted cell equals the text at its offsets", () =>
  fc.assert(
    fc.property(fc.string({ unit: fc.constantFrom(...'ab1.,;\t \r\n"#-') }), (text) => {
      for (const row of parseDelimited("r.csv", text).rows) {
        for (const cell of row.cells)
          if (!cell.text.includes('"')) expect(text.slice(cell.start, cell.end)).toBe(cell.text);
      }
    }),
    { seed: 1, numRuns: 1000 },
  ));
