import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import { paintPdf } from "../../src/pdf/paint.ts";
import { dummySheet } from "../layout/dummy-sheet.ts";
import { fonts, meta, pagesOf } from "../pdf/a-pdf.ts";
import { tinyPng } from "../pdf/tiny-png.ts";
import { demoJobs, ROOT } from "../whole/demo.ts";
import { check, rules } from "./check.ts";
import { keepsEveryRule } from "./keeps-every-rule.ts";
import { mutants } from "./mutants.ts";
import { readPdf, writePdf } from "./pdf-file.ts";

const listed = JSON.parse(readFileSync(new URL("../references/pdf-conformance.json", import.meta.url), "utf8")) as {
  rows: { standard: string; rule: string; requirement: string }[];
};
const nameOf = ({ standard, rule }: { standard: string; rule: string }) => `${standard} ${rule}`;

/** Part 2's own claim: a file of part 3 claims part 3. */
const OTHER_CLAIM = "PDF/A-2b 6.6.4-1";

test("every listed rule is checked, and no other", () => {
  expect(rules.map(nameOf).toSorted()).toEqual(
    listed.rows
      .map(nameOf)
      .filter((one) => one !== OTHER_CLAIM)
      .toSorted(),
  );
});

describe("every demo sheet, with all that it may carry inside, keeps every rule and is small", () => {
  test.each(demoJobs.map((path) => [path.slice(ROOT.length), path] as const))("%s", async (_name, path) => {
    await keepsEveryRule(path);
  });
});

describe("each rule can fail", () => {
  let sound: Buffer;
  beforeAll(async () => {
    const image = { kind: "image", y: 10, width: 20, height: 10, tag: { kind: "artifact" }, block: "b" } as const;
    const picture = {
      width: 300,
      height: 200,
      items: [
        { ...image, x: 0, image: "grey" },
        { ...image, x: 30, image: "clear" },
      ],
    };
    sound = await paintPdf([...pagesOf(dummySheet()), picture], {
      fonts,
      images: new Map([
        ["grey", tinyPng()],
        ["clear", tinyPng(6, [0, 10, 20, 30, 255, 10, 20, 30, 0])],
      ]),
      meta,
      attachments: [
        {
          name: "a.csv",
          bytes: Buffer.from("lift,flow\n"),
          type: "text/csv",
          description: "Readings",
          relationship: "Data",
        },
      ],
    });
  });

  test("the sheet that they are made from keeps all, packed by us and packed again", () => {
    expect(check(sound)).toEqual([]);
    expect(check(writePdf(readPdf(sound)))).toEqual([]);
  });
  test("there is one mutant a rule", () =>
    expect(Object.keys(mutants).toSorted()).toEqual(rules.map(nameOf).toSorted()));
  test.each(Object.keys(mutants))("%s", (rule) => {
    const found = check(mutants[rule]!(sound));
    expect(found.filter((fault) => fault.startsWith(`${rule}: `))).not.toEqual([]);
  });
});
