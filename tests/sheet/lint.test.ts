import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { faultsOf, sentencesOf, wordCount } from "./lint.ts";

type Row = { section: string; good: string; bad: string };
const { rows } = JSON.parse(readFileSync(new URL("../references/si-typography.json", import.meta.url), "utf8")) as {
  rows: Row[];
};

/** The rules of the published list that a program can see in plain text. */
const SEEN = ["7.2", "10.5.2", "10.5.3"];

test.each(rows.filter(({ section }) => SEEN.includes(section)))(
  "SP 811 $section tells $good from $bad",
  ({ good, bad }) => {
    expect(faultsOf(good)).toEqual([]);
    expect(faultsOf(bad)).not.toEqual([]);
  },
);

test("sentences and words are counted as a reader counts them", () => {
  expect(sentencesOf("One. Two three · four")).toEqual(["One.", "Two three", "four"]);
  expect(wordCount("± 2.4 % on average")).toBe(3);
});
