import fc from "fast-check";
import { expect, test } from "vitest";
import { layoutSheet } from "../../src/layout/layout-sheet.ts";
import { dummyDraw } from "./dummy-sheet.ts";
import { fixedMeasure } from "./fixed-measure.ts";
import { brokenLaws } from "./laws.ts";
import { pictures, sheetsOf } from "./random-sheets.ts";

const env = { measure: fixedMeasure, draw: dummyDraw, drawTrueSize: () => undefined, images: pictures };

test("a thousand large sheets of anything keep the laws of layout, and most of them can be printed", () => {
  let printed = 0;
  fc.assert(
    fc.property(sheetsOf(9), (sheet) => {
      const laid = layoutSheet(sheet, env);
      if (laid.pages.length > 0) printed++;
      expect(brokenLaws(sheet, laid)).toEqual([]);
    }),
    { numRuns: 1000, seed: 8_128 },
  );
  expect(printed).toBeGreaterThan(600);
}, 600_000);
