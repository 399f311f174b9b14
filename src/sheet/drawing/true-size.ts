import type { DrawnStep, TrueSize } from "../content.ts";
import type { Display } from "../display.ts";
import type { PlanDisc } from "./plan-distance.ts";

type Point = readonly [number, number];

/** Straight from point to point. */
export const polyline = (points: readonly Point[], closed = false): readonly DrawnStep[] => [
  ...points.map((to, i): DrawnStep => ({ kind: i === 0 ? "move" : "line", to })),
  ...(closed ? [{ kind: "close" } as const] : []),
];

/** Control points of a quarter of a circle by a cubic lie this share of its radius from its ends: off by 0.03 % at most. */
const QUARTER = (4 / 3) * (Math.SQRT2 - 1);

/** An ellipse as four cubics, its `across` axis turned by `tilt`. */
export function ellipse({ centre: [x, y], across, along, tilt }: PlanDisc): readonly DrawnStep[] {
  const [cos, sin] = [Math.cos(tilt), Math.sin(tilt)];
  const at = (u: number, v: number): Point => [
    x + u * across * cos - v * along * sin,
    y + u * across * sin + v * along * cos,
  ];
  const corners: readonly Point[] = [
    [1, 0],
    [0, 1],
    [-1, 0],
    [0, -1],
  ];
  return [
    { kind: "move", to: at(1, 0) },
    ...corners.map(([u, v], i): DrawnStep => {
      const [p, q] = corners[(i + 1) % 4] as Point;
      return {
        kind: "curve",
        first: at(u + QUARTER * p, v + QUARTER * q),
        second: at(p + QUARTER * u, q + QUARTER * v),
        to: at(p, q),
      };
    }),
    { kind: "close" },
  ];
}

/** A rectangle with round corners about the origin. */
export function roundedRectangle(width: number, height: number, corner: number): readonly DrawnStep[] {
  const [x, y] = [width / 2, height / 2];
  const radius = Math.min(corner, x, y);
  if (radius <= 0) {
    return polyline(
      [
        [-x, -y],
        [x, -y],
        [x, y],
        [-x, y],
      ],
      true,
    );
  }
  const bend = radius * (1 - QUARTER);
  const line = (px: number, py: number): DrawnStep => ({ kind: "line", to: [px, py] });
  const curve = (first: Point, second: Point, to: Point): DrawnStep => ({ kind: "curve", first, second, to });
  return [
    { kind: "move", to: [-x + radius, -y] },
    line(x - radius, -y),
    curve([x - bend, -y], [x, -y + bend], [x, -y + radius]),
    line(x, y - radius),
    curve([x, y - bend], [x - bend, y], [x - radius, y]),
    line(-x + radius, y),
    curve([-x + bend, y], [-x, y - bend], [-x, y - radius]),
    line(-x, -y + radius),
    curve([-x, -y + bend], [-x + bend, -y], [-x + radius, -y]),
    { kind: "close" },
  ];
}

/** Scale bar to check with a ruler: one inch, or two centimetres. */
export function scaleBar(display: Display): TrueSize["scaleBar"] {
  const metres = /^(in|thou)$/.test(display.unit("length")) ? 0.0254 : 0.02;
  return { length: metres * 1000, parts: 4, label: display.full("length", metres, 0) };
}

/** Opening sentence of every caption of drawings. */
export const trueSizeWords = (display: Display): string =>
  `True size (1 : 1) when printed at 100 %: the bar must measure ${scaleBar(display).label}.`;

/** Fallback text of a drawing larger than its room. */
export const tooLargeWords = (what: string): string =>
  `${what}: not drawn, since at true size it is larger than the room here.`;
