import { expect, test } from "vitest";
import { type PlanInput, placePlan, planHeights } from "../../../src/layout/head-plan/plan-geometry.ts";
import { fc } from "../../figures/seeded.ts";

const heads: fc.Arbitrary<PlanInput> = fc
  .record({
    count: fc.integer({ min: 1, max: 8 }),
    intake: fc.integer({ min: 1, max: 3 }),
    exhaust: fc.integer({ min: 1, max: 2 }),
    values: fc.integer({ min: 1, max: 4 }),
    widest: fc.double({ min: 20, max: 30, noNaN: true }),
  })
  .map(({ count, intake, exhaust, values, widest }) => ({
    cylinders: Array.from({ length: count }, () => ({ intake, exhaust })),
    values,
    widest: { large: widest * 1.2, small: widest },
    width: 437,
  }));

const share = fc.double({ min: 0, max: 1, noNaN: true });
const placed = (input: PlanInput, at: number) => {
  const [least, most] = planHeights(input);
  return placePlan(input, least + at * (most - least));
};

test("each valve has its place, of 1 to 8 cylinders with 2 to 5 valves", () => {
  fc.assert(
    fc.property(heads, share, (input, at) => {
      const { valves } = placed(input, at);
      const all = input.cylinders.flatMap((one, i) => [
        ...Array.from({ length: one.intake }, (_, k) => `${i} intake ${k}`),
        ...Array.from({ length: one.exhaust }, (_, k) => `${i} exhaust ${k}`),
      ]);
      expect(valves.map((one) => `${one.cylinder} ${one.side} ${one.index}`).sort()).toEqual(all.sort());
    }),
  );
});

test("no circle touches another, nor an edge of its part", () => {
  fc.assert(
    fc.property(heads, share, (input, at) => {
      const { valves, parts } = placed(input, at);
      for (const [i, one] of valves.entries()) {
        expect(one.r).toBeGreaterThanOrEqual(13);
        for (const other of valves.slice(i + 1))
          expect(Math.hypot(one.cx - other.cx, one.cy - other.cy)).toBeGreaterThan(one.r + other.r + 1);
        const part = parts.find(({ top, height }) => one.cy > top && one.cy < top + height)!;
        expect(one.cx - one.r).toBeGreaterThan(0);
        expect(one.cx + one.r).toBeLessThan(part.width);
        expect(one.cy + one.r).toBeLessThan(part.top + part.height);
      }
    }),
  );
});

test("no value lies on a circle or on another valve's value, nor outside of its part", () => {
  fc.assert(
    fc.property(heads, share, (input, at) => {
      const { valves, parts, lead, beside } = placed(input, at);
      const width = beside && lead === 16 ? input.widest.large : input.widest.small;
      const boxes = valves.map((one) => ({
        left: beside ? one.valuesX - width : one.valuesX - width / 2,
        right: beside ? one.valuesX : one.valuesX + width / 2,
        top: one.valuesTop,
        bottom: one.valuesTop + input.values * lead,
      }));
      for (const [i, box] of boxes.entries()) {
        const part = parts.find(({ top, height }) => box.top >= top && box.top < top + height)!;
        expect(box.left).toBeGreaterThan(-0.01);
        expect(box.right).toBeLessThan(part.width + 0.01);
        expect(box.bottom).toBeLessThan(part.top + part.height);
        for (const other of boxes.slice(i + 1))
          expect(
            box.right <= other.left + 0.01 ||
              other.right <= box.left + 0.01 ||
              box.bottom <= other.top ||
              other.bottom <= box.top,
          ).toBe(true);
        for (const { cx, cy, r } of valves) {
          const [dx, dy] = [Math.max(box.left - cx, 0, cx - box.right), Math.max(box.top - cy, 0, cy - box.bottom)];
          expect(Math.hypot(dx, dy)).toBeGreaterThanOrEqual(r - 0.01);
        }
      }
    }),
  );
});

test("a plan grows to its most, and is as high as it says", () => {
  fc.assert(
    fc.property(heads, share, (input, at) => {
      const [least, most] = planHeights(input);
      expect(most).toBeGreaterThanOrEqual(least);
      expect(placePlan(input, least + at * (most - least)).height).toBeCloseTo(least + at * (most - least), 6);
    }),
  );
});

test("one valve a side, four cylinders: circles of 28 and 24 with their values beside them, 192 high; at least 112", () => {
  const cylinders = Array.from({ length: 4 }, () => ({ intake: 1, exhaust: 1 }));
  const input = { cylinders, values: 4, widest: { large: 37, small: 31 }, width: 437 };
  expect(planHeights(input)).toEqual([112, 192]);
  const { valves, beside } = placePlan(input, 192);
  expect([beside, ...new Set(valves.map(({ r }) => r))]).toEqual([true, 28, 24]);
});
