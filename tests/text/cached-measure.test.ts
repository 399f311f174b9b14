import fc from "fast-check";
import { expect, test } from "vitest";
import { cachedMeasure, type Measure } from "../../src/text/measure.ts";
import { fixedMeasure } from "../layout/fixed-measure.ts";

test("widths are those of the measure itself, each worked out once", () =>
  fc.assert(
    fc.property(
      fc.array(
        fc.tuple(
          fc.string({ maxLength: 3 }),
          fc.constantFrom("regular" as const, "medium" as const, "semibold" as const),
          fc.constantFrom(8.5, 9, 10.5),
        ),
        { maxLength: 60 },
      ),
      (asked) => {
        let worked = 0;
        const counting: Measure = {
          ...fixedMeasure,
          width: (text, weight, size) => {
            worked += 1;
            return fixedMeasure.width(text, weight, size) + weight.length;
          },
        };
        const once = cachedMeasure(counting);
        const widths = asked.map((one) => once.width(...one));
        expect(worked).toBe(new Set(asked.map((one) => one.join("|"))).size);
        expect(widths).toEqual(asked.map((one) => counting.width(...one)));
      },
    ),
  ));

test("the cache does not grow without end", () => {
  let worked = 0;
  const width: Measure["width"] = (text) => {
    worked += 1;
    return text.length;
  };
  const once = cachedMeasure({ ...fixedMeasure, width });
  for (let i = 0; i < 20_001; i++) expect(once.width(`${i}`, "regular", 9)).toBe(`${i}`.length);
  expect(once.width("0", "regular", 9)).toBe(1);
  expect(worked).toBe(20_002);
});
