import fc from "fast-check";
import { expect, test } from "vitest";
import { layoutSheet } from "../../src/layout/layout-sheet.ts";
import { dummyDraw } from "./dummy-sheet.ts";
import { fixedMeasure } from "./fixed-measure.ts";
import { brokenLaws } from "./laws.ts";
import { pictures, sheetsOf } from "./random-sheets.ts";

const env = { measure: fixedMeasure, draw: dummyDraw, drawTrueSize: () => undefined, images: pictures };

test("a sheet of anything keeps the laws of layout", () =>
  fc.assert(
    fc.property(sheetsOf(3), (sheet) => {
      expect(brokenLaws(sheet, layoutSheet(sheet, env))).toEqual([]);
    }),
    { numRuns: 60, seed: 20_260_314 },
  ));
