import fc from "fast-check";
import { expect, test } from "vitest";
import { clipLine, clipSegment, type Point } from "../../src/charts/geometry.ts";
import { countHits, freeSpot } from "../../src/charts/obstacles.ts";

const box = { x: 0, y: 0, width: 10, height: 5 };
const point = fc.tuple(fc.double({ min: -20, max: 20, noNaN: true }), fc.double({ min: -20, max: 20, noNaN: true }));
const isInside = ([x, y]: Point, by = 1e-9) => x >= -by && x <= 10 + by && y >= -by && y <= 5 + by;

// By hand: y = x/2 enters at (0, 0) and leaves at (10, 5); y = x − 8 crosses from (8, 0) to (10, 2).
test.each([
  [
    [
      [-4, -2],
      [14, 7],
    ],
    [
      [0, 0],
      [10, 5],
    ],
  ],
  [
    [
      [6, -2],
      [12, 4],
    ],
    [
      [8, 0],
      [10, 2],
    ],
  ],
  [
    [
      [2, 2],
      [3, 3],
    ],
    [
      [2, 2],
      [3, 3],
    ],
  ],
] as const)("a segment keeps its part inside", (segment, part) => {
  const clipped = clipSegment(segment, box)!;
  for (const [i, [x, y]] of part.entries()) {
    expect(clipped[i]![0]).toBeCloseTo(x, 9);
    expect(clipped[i]![1]).toBeCloseTo(y, 9);
  }
});

test("a segment that misses is gone", () => {
  expect(
    clipSegment(
      [
        [-1, 3],
        [1, 9],
      ],
      box,
    ),
  ).toBeUndefined();
  expect(
    clipSegment(
      [
        [-5, 2],
        [-5, 3],
      ],
      box,
    ),
  ).toBeUndefined();
});

test("what is left of a line is inside, and every inner point of it is left", () =>
  fc.assert(
    fc.property(fc.array(point, { maxLength: 12 }), (points) => {
      const pieces = clipLine(points, box);
      expect(pieces.flat().every((each) => isInside(each))).toBe(true);
      const kept = new Set(pieces.flat().map(String));
      if (points.length > 1)
        for (const each of points) if (isInside(each, 0)) expect(kept.has(String(each))).toBe(true);
      expect(pieces.every((piece) => piece.length >= 2)).toBe(true);
    }),
  ));

test("a line inside is one piece, as it was", () =>
  expect(
    clipLine(
      [
        [1, 1],
        [2, 2],
        [3, 1],
      ],
      box,
    ),
  ).toEqual([
    [
      [1, 1],
      [2, 2],
      [3, 1],
    ],
  ]));

test("a line is broken where it leaves, and where a point is missing", () => {
  expect(
    clipLine(
      [
        [1, 1],
        [1, 9],
        [2, 9],
        [2, 1],
      ],
      box,
    ),
  ).toHaveLength(2);
  expect(
    clipLine(
      [
        [1, 1],
        [2, 1],
        [Number.NaN, Number.NaN],
        [3, 1],
        [4, 1],
      ],
      box,
    ),
  ).toEqual([
    [
      [1, 1],
      [2, 1],
    ],
    [
      [3, 1],
      [4, 1],
    ],
  ]);
});

test("a label takes the first spot that is free, else the one that touches least", () => {
  const spot = (x: number) => ({ x, y: 0, width: 4, height: 4 });
  const obstacles = {
    segments: [
      [
        [0, 2],
        [30, 2],
      ],
    ] as const,
    boxes: [spot(0), spot(10)],
  };
  expect(countHits(spot(0), obstacles)).toBe(2);
  expect(freeSpot([spot(0), spot(20), spot(40)], obstacles)).toEqual(spot(40));
  expect(freeSpot([spot(0), spot(20), spot(10)], obstacles)).toEqual(spot(20));
  expect(freeSpot([], obstacles)).toBeUndefined();
});
