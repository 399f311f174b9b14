import { expect, test } from "vitest";
import { drawChart } from "../../src/charts/draw-chart.ts";
import type { DotStrip } from "../../src/sheet/content.ts";
import { liftAxis, stripAxis } from "../../src/sheet/panel-axis.ts";
import { boundsOf, env, pathsOf, textOf, words } from "./chart-samples.ts";

const size = { width: 239.6, height: 89 };
const strip: DotStrip = {
  kind: "dot-strip",
  x: { title: "lift, mm", ...liftAxis(10, size.width) },
  y: { title: "%", ...stripAxis(-6, 25, 76) },
  color: "#1f4e5f",
  stems: true,
  zone: [2, 6, 10].map((x, i) => ({ x, low: -6 + i, high: 6 - i })),
  dots: [
    { x: 2, y: 3, hollow: true },
    { x: 6, y: 14, hollow: false },
    { x: 10, y: 25, hollow: false },
  ],
  gaps: [8],
  cam: { at: 9 },
};
const drawn = drawChart(strip, size, env);
const zeroLine = pathsOf(drawn, "axis").find((line) => boundsOf(line).y1 === boundsOf(line).y2)!;

test("a dot is filled where the change is clear, hollow where it is within its ±, 2.7 pt in radius", () => {
  const dots = pathsOf(drawn, "reading");
  expect(dots.map(({ fill }) => fill)).toEqual([env.colors.paper, strip.color, strip.color]);
  for (const dot of dots) {
    const { x1, x2 } = boundsOf(dot);
    expect(x2 - x1 + dot.stroke!.width).toBeCloseTo(5.4, 2);
  }
});

test("stems go from zero to their dots; a hollow dot stays white inside", () => {
  const stems = pathsOf(drawn, "bar").map(boundsOf);
  const zero = boundsOf(zeroLine).y1;
  expect(stems.map(({ y2 }) => y2)).toEqual([zero, zero, zero]);
  const [hollow] = pathsOf(drawn, "reading").map(boundsOf);
  expect(stems[0]!.y1).toBeGreaterThanOrEqual(hollow!.y2 - 0.51);
});

test("the zone reaches from −± to +± at each lift and has an edge, so that a copy in black and white keeps it", () => {
  const [zone] = pathsOf(drawn, "band");
  expect(zone).toMatchObject({ fill: env.colors.zone, stroke: { color: env.colors.earlier, width: 0.5 } });
  expect(zone!.d).toHaveLength(7);
  const lone = drawChart({ ...strip, zone: strip.zone.slice(0, 1) }, size, env);
  const { x1, x2 } = boundsOf(pathsOf(lone, "band")[0]!);
  expect(x2 - x1).toBeCloseTo(12, 2);
});

test("steps up are signed, without their unit; what is not compared is a dash; the cam is named", () => {
  expect(words(drawn)).toEqual(expect.arrayContaining(["+10", "+20", "–", "your cam", "lift, mm"]));
  expect(textOf(drawn, "your cam").color).toBe(env.colors.ink);
});

test("port to port has dots only: no stems, no zone, no cam", () => {
  const { cam: _, gaps: __, ...rest } = strip;
  const ports = drawChart({ ...rest, stems: false, zone: [] }, size, env);
  expect(pathsOf(ports, "bar")).toEqual([]);
  expect(pathsOf(ports, "band")).toEqual([]);
  expect(pathsOf(ports, "reading")).toHaveLength(3);
});

test("a dot outside its axes is our mistake, not hidden", () => {
  expect(() => drawChart({ ...strip, dots: [{ x: 2, y: 400, hollow: false }] }, size, env)).toThrow(/outside the axis/);
});
