import fc from "fast-check";
import { expect, test } from "vitest";
import { type LabelRequest, placeLabels } from "../../src/charts/place-labels.ts";

const label = fc.record({
  at: fc.double({ min: -50, max: 250, noNaN: true }),
  size: fc.double({ min: 1, max: 20, noNaN: true }),
});
const labels = fc.array(label, { minLength: 1, maxLength: 9 });
const [start, end] = [0, 200];

/** Lower and upper edge of each label, ascending. */
const edges = (wanted: readonly LabelRequest[], middles: readonly (number | undefined)[]) =>
  middles
    .map((middle, i) => [middle! - wanted[i]!.size / 2, middle! + wanted[i]!.size / 2] as const)
    .sort((a, b) => a[0] - b[0]);
const cost = (wanted: readonly LabelRequest[], middles: readonly number[]) =>
  middles.reduce((sum, middle, i) => sum + (middle - wanted[i]!.at) ** 2, 0);

test("labels never overlap and stay inside", () =>
  fc.assert(
    fc.property(labels, (wanted) => {
      const boxes = edges(wanted, placeLabels(wanted, start, end));
      expect(boxes[0]![0]).toBeGreaterThanOrEqual(start - 1e-6);
      expect(boxes.at(-1)![1]).toBeLessThanOrEqual(end + 1e-6);
      for (let i = 1; i < boxes.length; i++) expect(boxes[i]![0]).toBeGreaterThanOrEqual(boxes[i - 1]![1] - 1e-6);
    }),
  ));

test("labels keep the order of the places they want", () =>
  fc.assert(
    fc.property(labels, (wanted) => {
      const placed = placeLabels(wanted, start, end);
      for (const [i, a] of wanted.entries())
        for (const [j, b] of wanted.entries()) if (a.at < b.at) expect(placed[i]!).toBeLessThan(placed[j]!);
    }),
  ));

test("labels with room where they want to be are not moved", () =>
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 5, max: 20 }), { minLength: 1, maxLength: 9 }), (sizes) => {
      let at = start;
      const wanted = sizes.map((size) => {
        at += size + 0.5;
        return { at: at - size / 2, size };
      });
      expect(placeLabels(wanted, start, end).map((middle) => Math.round(middle! * 1e6) / 1e6)).toEqual(
        wanted.map(({ at }) => at),
      );
    }),
  ));

test("no arrangement in the same order moves the labels less", () =>
  fc.assert(
    fc.property(
      labels,
      fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 10, maxLength: 10 }),
      (wanted, shares) => {
        // Any arrangement is the labels in order with the free room shared out between them.
        const order = wanted.map((_, i) => i).sort((a, b) => wanted[a]!.at - wanted[b]!.at || a - b);
        const free = end - start - wanted.reduce((sum, { size }) => sum + size, 0);
        const total = shares.slice(0, wanted.length + 1).reduce((sum, share) => sum + share, 0) || 1;
        const other = Array<number>(wanted.length);
        let at = start;
        for (const [rank, i] of order.entries()) {
          at += (shares[rank]! / total) * free;
          other[i] = at + wanted[i]!.size / 2;
          at += wanted[i]!.size;
        }
        const best = placeLabels(wanted, start, end) as readonly number[];
        expect(cost(wanted, best)).toBeLessThanOrEqual(cost(wanted, other) + 1e-6);
        // Nor does a step from the best towards that arrangement: the best is a true minimum.
        const nearer = best.map((middle, i) => middle + 0.01 * (other[i]! - middle));
        expect(cost(wanted, best)).toBeLessThanOrEqual(cost(wanted, nearer) + 1e-6);
      },
    ),
  ));

// Two labels of 10 that both want 50 share it: 45 and 55; a third that wants 54 pushes all: mean of (50, 50, 54) is 51⅓.
test("worked by hand", () => {
  const size = 10;
  expect(
    placeLabels(
      [50, 50].map((at) => ({ at, size })),
      0,
      100,
    ),
  ).toEqual([45, 55]);
  const three = placeLabels(
    [50, 50, 54].map((at) => ({ at, size })),
    0,
    100,
  );
  expect(three.map((middle) => Math.round(middle! * 1000) / 1000)).toEqual([41.333, 51.333, 61.333]);
  expect(placeLabels([{ at: 2, size }], 0, 100)).toEqual([5]);
});

test("where the line is too short, the last of the list give way", () =>
  expect(
    placeLabels(
      [
        { at: 90, size: 40 },
        { at: 10, size: 40 },
        { at: 50, size: 40 },
      ],
      0,
      100,
    ),
  ).toEqual([80, 20, undefined]));

test("nothing to place", () => expect(placeLabels([], 0, 10)).toEqual([]));
