import { expect, test } from "vitest";
import { roundData, roundFigure } from "../../src/embed/figures-mark.ts";
import { fc } from "../figures/seeded.ts";

const long = (value: unknown) =>
  JSON.stringify(value, (_, one) => (typeof one === "number" ? Number(one.toPrecision(6)) : one));

test("a number is rounded as its six digits are printed", () =>
  fc.assert(
    fc.property(
      fc.oneof(
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        fc.double({ min: -1000, max: 1000, noNaN: true }),
        // Ties and their neighbours, and numbers that are six digits already.
        fc
          .tuple(
            fc.integer({ min: 100_000, max: 999_999 }),
            fc.integer({ min: -30, max: 30 }),
            fc.constantFrom(0, 5, 49999, 50001),
          )
          .map(([whole, power, rest]) => Number(`${whole}${rest}e${power}`)),
        fc.constantFrom(0, -0, 1, 10, 99999.95, 999999.5, 1e21, 1e-7, 5e-324, 0.1 + 0.2),
      ),
      (value) => {
        expect(roundFigure(value) === Number(value.toPrecision(6))).toBe(true);
      },
    ),
    { numRuns: 3000 },
  ));

test("what is marked is the JSON of rounded figures", () => {
  fc.assert(
    fc.property(fc.jsonValue(), (value) => {
      expect(JSON.stringify(roundData(value))).toBe(long(value));
    }),
  );
  const gaps = { a: undefined, b: [1 / 3, undefined, Number.NaN], c: { 'd"': "e\n" }, f: null, g: true };
  expect(JSON.stringify(roundData(gaps))).toBe(long(gaps));
});
