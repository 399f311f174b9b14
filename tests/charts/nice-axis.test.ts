import fc from "fast-check";
import { expect, test } from "vitest";
import { niceAxis } from "../../src/sheet/nice-axis.ts";

test("worked by eye", () => {
  expect(niceAxis(0, 223.6, 6)).toEqual({ start: 0, end: 250, ticks: [0, 50, 100, 150, 200, 250], decimals: 0 });
  expect(niceAxis(0, 12, 7)).toEqual({ start: 0, end: 12, ticks: [0, 2, 4, 6, 8, 10, 12], decimals: 0 });
  expect(niceAxis(0, 0.3, 7)).toEqual({ start: 0, end: 0.3, ticks: [0, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3], decimals: 2 });
  expect(niceAxis(-3.1, 12.4, 6)).toEqual({ start: -5, end: 15, ticks: [-5, 0, 5, 10, 15], decimals: 0 });
  expect(niceAxis(0, 9, 5)).toEqual({ start: 0, end: 10, ticks: [0, 2.5, 5, 7.5, 10], decimals: 1 });
  expect(niceAxis(0, 4e6, 5).ticks).toEqual([0, 1e6, 2e6, 3e6, 4e6]);
});

test("limits that coincide still make an axis", () => {
  expect(niceAxis(0, 0, 5)).toMatchObject({ start: 0, end: 1 });
  const { start, end } = niceAxis(180, 180, 5);
  expect(start).toBeLessThan(180);
  expect(end).toBeGreaterThan(180);
});

test("an axis holds its limits, few ticks, evenly, and prints them all differently", () =>
  fc.assert(
    fc.property(
      fc.double({ min: -1e9, max: 1e9, noNaN: true }),
      fc.double({ min: 1e-7, max: 1e9, noNaN: true }),
      fc.integer({ min: 3, max: 12 }),
      (low, span, most) => {
        fc.pre(span > Math.abs(low) * 1e-6);
        const { start, end, ticks, decimals } = niceAxis(low, low + span, most);
        const slack = span * 1e-6;
        expect(start).toBeLessThanOrEqual(low + slack);
        expect(end).toBeGreaterThanOrEqual(low + span - slack);
        expect(ticks.length).toBeGreaterThanOrEqual(2);
        expect(ticks.length).toBeLessThanOrEqual(most);
        expect([ticks[0], ticks.at(-1)]).toEqual([start, end]);
        const step = (end - start) / (ticks.length - 1);
        for (const [i, tick] of ticks.entries()) expect(Math.abs(tick - start - i * step)).toBeLessThan(step * 1e-6);
        for (const tick of ticks) expect(Math.abs(Number(tick.toFixed(decimals)) - tick)).toBeLessThan(step * 1e-6);
      },
    ),
  ));

test("an axis that holds zero has a tick there", () =>
  fc.assert(
    fc.property(
      fc.double({ min: -1e3, max: 0, noNaN: true }),
      fc.double({ min: 1, max: 1e3, noNaN: true }),
      (low, high) => {
        expect(niceAxis(low, high, 6).ticks).toContain(0);
      },
    ),
  ));

test("what cannot be an axis", () => {
  expect(() => niceAxis(Number.NaN, 1, 5)).toThrow(RangeError);
  expect(() => niceAxis(0, Number.POSITIVE_INFINITY, 5)).toThrow(RangeError);
  expect(() => niceAxis(0, 1, 2)).toThrow(RangeError);
});
