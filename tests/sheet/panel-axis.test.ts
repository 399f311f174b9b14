import fc from "fast-check";
import { expect, test } from "vitest";
import { evenAxis, liftAxis, panelAxis, stripAxis } from "../../src/sheet/panel-axis.ts";

const PLOT = 112;
const highest = fc.double({ min: 0.01, max: 5000, noNaN: true });
/** Height of a value over the foot of the plot [pt]. */
const at = ({ start, end }: { start: number; end: number }, value: number, plot = PLOT) =>
  ((value - start) / (end - start)) * plot;

test("worked values: four lines to 200, three to 75, and a step 2 % over the highest value still gets its line", () => {
  expect(panelAxis(199.9, PLOT).ticks).toEqual([0, 50, 100, 150, 200]);
  expect(panelAxis(97.3, PLOT).ticks).toEqual([0, 25, 50, 75]);
  expect(panelAxis(56.4, PLOT).ticks).toEqual([0, 10, 20, 30, 40, 50]);
  expect(panelAxis(98.1, PLOT).ticks).toEqual([0, 25, 50, 75, 100]);
  expect(panelAxis(0.74, PLOT)).toMatchObject({ ticks: [0, 0.25, 0.5, 0.75], decimals: 2 });
});

test("three to five lines, the end no tick, 5 pt over the highest value, 10.5 over the topmost line, one of them exactly", () =>
  fc.assert(
    fc.property(highest, (value) => {
      const axis = panelAxis(value, PLOT);
      expect(axis.ticks.length - 1).toBeGreaterThanOrEqual(3);
      expect(axis.ticks.length - 1).toBeLessThanOrEqual(5);
      expect(axis.end).toBeGreaterThan(axis.ticks.at(-1)!);
      const [over, line] = [PLOT - at(axis, value), PLOT - at(axis, axis.ticks.at(-1)!)];
      expect(over).toBeGreaterThanOrEqual(5 - 1e-9);
      expect(line).toBeGreaterThanOrEqual(10.5 - 1e-9);
      expect(Math.min(over - 5, line - 10.5)).toBeLessThan(1e-9);
      // The data fill at least 85 % of the plot's height.
      expect(at(axis, value)).toBeGreaterThanOrEqual(0.85 * PLOT);
    }),
    { seed: 7, numRuns: 300 },
  ));

test("a strip holds all its values, its zero, and room for its topmost label", () =>
  fc.assert(
    fc.property(
      fc.double({ min: -80, max: 0, noNaN: true }),
      fc.double({ min: 0.1, max: 120, noNaN: true }),
      (low, high) => {
        const axis = stripAxis(low, high, 76);
        expect(axis.start).toBeLessThan(low);
        expect(axis.end).toBeGreaterThan(high);
        expect(axis.ticks).toContain(0);
        expect(axis.ticks.length).toBeGreaterThanOrEqual(2);
        expect(axis.ticks.length).toBeLessThanOrEqual(6);
        expect(76 - at(axis, axis.ticks.at(-1)!, 76)).toBeGreaterThanOrEqual(10.5 - 1e-9);
      },
    ),
    { seed: 7, numRuns: 300 },
  ));

test("a strip for changes within their ± reaches as far up as down: 10, or the next step that holds it", () => {
  expect(evenAxis(4.2).ticks).toEqual([-10, 0, 10]);
  expect(evenAxis(13).ticks).toEqual([-20, 0, 20]);
  expect(evenAxis(61).ticks).toEqual([-100, 0, 100]);
});

test("lifts begin at zero, and the last reading stands 12 pt from the edge", () => {
  const axis = liftAxis(0.5, 239.6);
  expect(axis.ticks).toEqual([0, 0.1, 0.2, 0.3, 0.4, 0.5]);
  expect(239.6 - (0.5 / axis.end) * 239.6).toBeCloseTo(12, 9);
  expect(liftAxis(10, 239.6).ticks).toEqual([0, 2, 4, 6, 8, 10]);
});
