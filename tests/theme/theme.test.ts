import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { contrast, lightness, luminance } from "../../src/theme/contrast.ts";
import { makeTheme } from "../../src/theme/make-theme.ts";
import { papers } from "../../src/theme/theme.ts";

fc.configureGlobal({ seed: 20260314 });

const reference = (name: string) =>
  JSON.parse(readFileSync(new URL(`../references/${name}.json`, import.meta.url), "utf8"));

const hex = fc.integer({ min: 0, max: 0xffffff }).map((n) => `#${n.toString(16).padStart(6, "0")}`);

describe("contrast", () => {
  // W3C, WCAG 2.2; rows of wcag-contrast.json, the published ones marked there.
  test("as the published formula has it, for any two colours", () =>
    fc.assert(
      fc.property(fc.tuple(hex, hex), ([a, b]) => {
        expect(contrast(a, b)).toBeCloseTo(wcagContrast(a, b), 9);
      }),
      { numRuns: 500 },
    ));
  test.each(reference("wcag-contrast").rows as { fg: string; bg: string; ratio: number; L_fg: number }[])(
    "$fg on $bg",
    ({ fg, bg, ratio, L_fg }) => {
      expect(contrast(fg, bg)).toBeCloseTo(ratio, 7);
      expect(luminance(fg)).toBeCloseTo(L_fg, 8);
    },
  );
});

describe("lightness", () => {
  // CIE 15: black 0, white 100 by definition. Mid grey #777777 is 50.03 and pure red, green, blue are 53.24, 87.73, 32.30
  // in published sRGB to CIELAB tables (from memory).
  test.each([
    ["#000000", 0],
    ["#ffffff", 100],
    ["#777777", 50.03],
    ["#ff0000", 53.24],
    ["#00ff00", 87.73],
    ["#0000ff", 32.3],
  ])("%s", (color, l) => expect(lightness(color)).toBeCloseTo(l, 1));
});

describe("paper", () => {
  // ISO 216 and ANSI Y14.1, page-sizes.json.
  test.each([
    ["A4", "A4"],
    ["Letter", "ANSI A (letter)"],
  ] as const)("%s", (name, row) => {
    const size = (reference("page-sizes").rows as { name: string; width_pt: number; height_pt: number }[]).find(
      (r) => r.name === row,
    )!;
    expect(papers[name].width).toBeCloseTo(size.width_pt, 4);
    expect(papers[name].height).toBeCloseTo(size.height_pt, 4);
    const { width, height, margin } = papers[name];
    expect(width - margin.left - margin.right).toBeCloseTo(493.2, 6);
    expect(margin.left).toBe(margin.right);
    expect(height - margin.top - margin.bottom).toBeCloseTo(size.height_pt - 64, 3);
    for (const side of Object.values(margin)) expect(side).toBeGreaterThan((10 * 72) / 25.4);
  });
});

describe("accent", () => {
  const channel = fc.integer({ min: 0, max: 255 }).map((n) => n.toString(16).padStart(2, "0"));
  test("any accent ends readable, and apart from what came before", () =>
    fc.assert(
      fc.property(fc.tuple(channel, channel, channel), (rgb) => {
        const { theme, diagnostics } = makeTheme({ accent: `#${rgb.join("")}` });
        expect(wcagContrast(theme.colors.accent, "#ffffff")).toBeGreaterThanOrEqual(7);
        expect(wcagContrast(theme.series.latest.label, "#ffffff")).toBeGreaterThanOrEqual(7);
        const lightest = Math.min(...theme.series.earlier.map(({ color }) => lightness(color)));
        expect(lightest - lightness(theme.colors.accent)).toBeGreaterThanOrEqual(9);
        expect(diagnostics.length).toBe(theme.colors.accent === `#${rgb.join("")}` ? 0 : 1);
      }),
      { numRuns: 2000 },
    ));
  test("any accent leaves grounds that are told from paper in grey, with text and lines to be read on them", () =>
    fc.assert(
      fc.property(hex, (accent) => {
        const { colors } = makeTheme({ accent }).theme;
        const { ink, accent: own, quiet, earlier, zone, beyond, tint, closing, shade, onTint, paper } = colors;
        expect(100 - lightness(tint)).toBeGreaterThanOrEqual(8);
        expect(100 - lightness(zone)).toBeGreaterThanOrEqual(10);
        expect(lightness(closing)).toBeGreaterThan(lightness(tint));
        for (const ground of [tint, closing, zone, beyond]) expect(wcagContrast(ink, ground)).toBeGreaterThanOrEqual(7);
        expect(wcagContrast(onTint, tint)).toBeGreaterThanOrEqual(5.7);
        expect([own, ink]).toContain(onTint);
        for (const ground of [own, shade]) expect(wcagContrast(paper, ground)).toBeGreaterThanOrEqual(7);
        expect(lightness(earlier) - lightness(own)).toBeGreaterThanOrEqual(9);
        for (const ground of [paper, beyond]) expect(wcagContrast(earlier, ground)).toBeGreaterThanOrEqual(4.4);
        expect(wcagContrast(earlier, tint)).toBeGreaterThanOrEqual(3.5);
        expect(wcagContrast(quiet, paper)).toBeGreaterThanOrEqual(7);
      }),
      { numRuns: 2000 },
    ));
  test("a dark accent stays, a light one is darkened with a warning, nonsense is refused", () => {
    expect(makeTheme({ accent: "#7A1F2B" })).toMatchObject({
      theme: { colors: { accent: "#7a1f2b" } },
      diagnostics: [],
    });
    expect(makeTheme({ accent: "#F0E442" }).diagnostics).toMatchObject([
      { severity: "warning", code: "theme/accent-darkened" },
    ]);
    expect(makeTheme({ accent: "teal" }).diagnostics).toMatchObject([{ severity: "error", code: "theme/accent" }]);
    expect(makeTheme({}).diagnostics).toEqual([]);
  });
});

describe("the theme's own colours", () => {
  const { colors, series } = makeTheme({}).theme;
  test("text 7 : 1, lines and markers 3 : 1", () => {
    for (const text of [colors.ink, colors.quiet, colors.accent])
      expect(contrast(text, colors.paper)).toBeGreaterThanOrEqual(7);
    expect(contrast(colors.ink, colors.grid)).toBeGreaterThanOrEqual(7);
    const lines = [series.latest, ...series.earlier, ...series.others].map((s) => s.color);
    for (const line of [colors.rule, ...lines]) expect(contrast(line, colors.paper)).toBeGreaterThanOrEqual(3);
  });
  test("other heads wear the colours of the published set that reach 3 : 1", () => {
    const published = (reference("palette").rows as { hex: string; graphics_3_to_1: boolean }[])
      .filter((r) => r.graphics_3_to_1)
      .map((r) => r.hex.toLowerCase());
    for (const { color } of series.others) expect(published).toContain(color);
  });
  test("names beside lines are readable: in the line's colour where that will do, else in ink; earlier stages are quiet", () => {
    for (const { color, label } of [series.latest, ...series.others])
      expect(label).toBe(wcagContrast(color, "#ffffff") >= 7 ? color : colors.ink);
    for (const { label } of series.earlier) expect(label).toBe(colors.quiet);
  });
  test("nine stages and twelve other heads have looks of their own", () => {
    expect(series.earlier.length).toBe(8);
    expect(series.others.length).toBe(12);
  });
  test("any two lines are told apart in grey: 20 in L*, or by dash and marker both", () => {
    const all = [series.latest, ...series.earlier, ...series.others];
    for (const [i, a] of all.entries())
      for (const b of all.slice(i + 1)) {
        const byLight = Math.abs(lightness(a.color) - lightness(b.color)) >= 20;
        const byShape = dashesApart(a.dash, b.dash) && `${a.marker} ${a.filled}` !== `${b.marker} ${b.filled}`;
        expect(byLight || byShape, `${JSON.stringify(a)} and ${JSON.stringify(b)}`).toBe(true);
      }
  });
});

/** Dashes of as many strokes differ by at least a point somewhere; a solid line differs from any. */
const dashesApart = (a: readonly number[], b: readonly number[]) =>
  a.length !== b.length || a.some((length, i) => Math.abs(length - b[i]!) >= 1);

/** W3C, WCAG 2.1, "contrast ratio" and "relative luminance", written out again from the published text (threshold 0.03928). */
function wcagContrast(a: string, b: string): number {
  const [low, high] = [a, b]
    .map((color) => {
      const [r, g, blue] = [1, 3, 5].map((from) => {
        const c = Number.parseInt(color.slice(from, from + 2), 16) / 255;
        return c <= 0.03928 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * r! + 0.7152 * g! + 0.0722 * blue!;
    })
    .sort((x, y) => x - y);
  return (high! + 0.05) / (low! + 0.05);
}
