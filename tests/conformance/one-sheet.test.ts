import { expect, test } from "vitest";
import { paintPdf } from "../../src/pdf/paint.ts";
import { dummySheet } from "../layout/dummy-sheet.ts";
import { fonts, meta, pagesOf } from "../pdf/a-pdf.ts";
import { demo } from "../whole/demo.ts";
import { keepsEveryRule } from "./keeps-every-rule.ts";
import { readPdf } from "./pdf-file.ts";
import { elementsOf } from "./structure-tree.ts";

test("a caption shared by two charts stands beside both, in one group with their titles", async () => {
  const file = readPdf(await paintPdf(pagesOf(dummySheet()), { fonts, images: new Map(), meta }));
  const groups = elementsOf(file).filter(({ type }) => type === "Div");
  expect(groups.map(({ children }) => children.map(({ type }) => type))).toEqual([
    ["P", "Figure", "P", "Figure", "Caption"],
  ]);
});

// All demo sheets, and that each rule can fail, are checked in the slow tier.
test("a handover with all that it may carry inside keeps every rule and is small", async () => {
  await keepsEveryRule(demo("alder-lane/2026-014.yaml"));
});
