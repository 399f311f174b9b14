import { decode } from "fast-png";
import { expect, test } from "vitest";
import { drawChart } from "../../src/charts/draw-chart.ts";
import type { Page } from "../../src/layout/page.ts";
import { paintPdf } from "../../src/pdf/paint.ts";
import { pageImages } from "../../src/raster/page-renderer.ts";
import type { LineChart } from "../../src/sheet/content.ts";
import { lightness } from "../../src/theme/contrast.ts";
import { makeTheme } from "../../src/theme/make-theme.ts";
import { kit } from "./demo.ts";

const { theme } = makeTheme({});
const { latest, earlier, others } = theme.series;
const looks = [latest, ...earlier, ...others];
const DPI = 288;
const SCALE = DPI / 72;

/** One level line a look, 30 pt under the last, its one reading in the middle. */
const chart: LineChart = {
  kind: "line",
  x: { title: "Lift (mm)", start: 0, end: 10, ticks: [0, 10], decimals: 0 },
  y: { title: "Flow", start: 0, end: looks.length + 1, ticks: [0, looks.length + 1], decimals: 0 },
  series: looks.map((style, i) => ({
    name: `${i}`,
    label: "",
    style,
    curve: [
      [0, i + 1],
      [10, i + 1],
    ],
    points: [{ x: 5, y: i + 1, kind: "good" }],
  })),
};

/** Lightness L* of every dot of the page, as a copier in grey would see it. */
async function greyPage() {
  const size = { width: 420, height: 30 * (looks.length + 1) };
  const drawing = drawChart(chart, size, { measure: kit.fonts.measure, colors: theme.colors, shapes: kit.shapes });
  const item = {
    kind: "drawing",
    x: 40,
    y: 40,
    drawing,
    tag: { kind: "figure", id: "f", alt: "looks" },
    block: "b",
  } as const;
  const page: Page = { width: 520, height: size.height + 80, items: [item] };
  const meta = { title: "Looks", subject: "Looks", language: "en", issued: "2026-03-14", producer: "test" } as const;
  const pdf = await paintPdf([page], { fonts: kit.fonts, images: new Map(), attachments: [], meta });
  const { width, height, data } = decode((await pageImages(pdf, DPI))[0]!);
  const hex = (i: number) => `#${[0, 1, 2].map((c) => data[4 * i + c]!.toString(16).padStart(2, "0")).join("")}`;
  const known = new Map<string, number>();
  const grey = Float32Array.from({ length: width * height }, (_, i) => {
    const color = hex(i);
    const l = known.get(color) ?? lightness(color);
    known.set(color, l);
    return l;
  });
  const lines = drawing.items.filter((one) => one.kind === "path" && one.role === "curve");
  expect(lines.length).toBe(looks.length);
  const places = lines.map((line) => {
    const [from, to] = line.kind === "path" ? [line.d[0]!, line.d.at(-1)!] : [];
    return { y: 40 + (from![2] as number), from: 40 + (from![1] as number), to: 40 + (to![1] as number) };
  });
  return { at: (x: number, y: number) => grey[Math.round(y * SCALE) * width + Math.round(x * SCALE)]!, places };
}

type Seen = { readonly ink: number; readonly strokes: string; readonly marker: readonly number[] };

test("what was drawn is told apart in grey: 20 in L*, or by strokes and marker both", async () => {
  const { at, places } = await greyPage();
  const seen = places.map(({ y, from, to }): Seen => {
    const middle = (from + to) / 2;
    const along = Array.from({ length: Math.floor((middle - 12 - from) * SCALE) }, (_, i) => at(from + i / SCALE, y));
    return { ink: Math.min(...along), strokes: rhythm(along), marker: markerAt(at, middle, y) };
  });
  for (const [i, a] of seen.entries())
    for (const [j, b] of seen.slice(i + 1).entries()) {
      const apart = Math.abs(a.ink - b.ink) >= 20 || (a.strokes !== b.strokes && differ(a.marker, b.marker) > 12);
      expect
        .soft(apart, `look ${i} and look ${i + 1 + j}: ${a.strokes} / ${b.strokes}, ${differ(a.marker, b.marker)}`)
        .toBe(true);
    }
  // The latest alone is solid.
  expect(seen.map(({ strokes }) => strokes === "")).toEqual(looks.map((_, i) => i === 0));
}, 60_000);

/** Lengths of ink and paper by turns, in half points, once the pattern runs. */
function rhythm(along: readonly number[]): string {
  const turns: number[] = [];
  let length = 0;
  along.forEach((l, i) => {
    if (i > 0 && l < 80 !== along[i - 1]! < 80) {
      turns.push(Math.round((2 * length) / SCALE));
      length = 0;
    }
    length++;
  });
  return turns.slice(0, 10).join(" ");
}

/** Ink of a marker on a raster of half points, 4 pt around its middle. */
const markerAt = (at: (x: number, y: number) => number, x: number, y: number) =>
  Array.from({ length: 17 * 17 }, (_, i) => (at(x - 4 + (i % 17) / 2, y - 4 + Math.floor(i / 17) / 2) < 80 ? 1 : 0));

const differ = (a: readonly number[], b: readonly number[]) => a.filter((ink, i) => ink !== b[i]).length;
