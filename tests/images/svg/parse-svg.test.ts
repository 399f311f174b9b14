import { describe, expect, test } from "vitest";
import { isSvg, parseSvg } from "../../../src/images/svg/parse-svg.ts";

const bytes = (text: string) => new TextEncoder().encode(text);
const svg = (inside: string, more = 'viewBox="0 0 10 10"') =>
  bytes(`<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg" ${more}>${inside}</svg>`);
const picture = (inside: string, more?: string) => {
  const parsed = parseSvg(svg(inside, more));
  if ("fault" in parsed) throw new Error(parsed.fault);
  return parsed.picture;
};
const fault = (file: Uint8Array) => {
  const parsed = parseSvg(file);
  return "fault" in parsed ? parsed.fault : undefined;
};

describe("filled shapes are read", () => {
  test("paths in absolute cubic steps, fills as six digits, inherited from groups", () => {
    const { width, height, shapes } = picture(
      '<title>A mark</title><g fill="#8a3"><path d="m1 1h2v2z"/><path fill="white" fill-rule="evenodd" d="M0 0Q1 0 1 1Z"/></g>',
    );
    expect([width, height]).toEqual([10, 10]);
    expect(shapes[0]).toEqual({
      fill: "#88aa33",
      evenOdd: false,
      steps: [["M", 1, 1], ["L", 3, 1], ["L", 3, 3], ["Z"]],
    });
    // A quadratic curve's cubic control points lie two thirds of the way to its own.
    const [, curve] = shapes[1]!.steps as [unknown, readonly (string | number)[]];
    expect(shapes[1]).toMatchObject({ fill: "#ffffff", evenOdd: true });
    [2 / 3, 0, 1, 1 / 3, 1, 1].forEach((wanted, i) => {
      expect(curve[i + 1]).toBeCloseTo(wanted, 12);
    });
  });
  test("the view box is moved to the corner; transforms are applied, the inner first", () => {
    const { shapes } = picture(
      '<g transform="translate(10 20) scale(2)"><rect x="1" y="1" width="2" height="3" transform="rotate(90)"/></g>',
      'viewBox="10 20 40 40"',
    );
    const [first] = shapes[0]!.steps as [readonly [string, number, number]];
    expect(first[1]).toBeCloseTo(-2, 12);
    expect(first[2]).toBeCloseTo(2, 12);
  });
  test("a circle is round to 0.1 %", () => {
    const { shapes } = picture('<circle cx="5" cy="5" r="4"/>');
    const curves = shapes[0]!.steps.filter((step) => step[0] === "C");
    expect(curves.length).toBeGreaterThanOrEqual(2);
    let [x0, y0] = [1, 5];
    for (const [, x1, y1, x2, y2, x3, y3] of curves as [string, number, number, number, number, number, number][]) {
      for (const t of [0.25, 0.5, 0.75]) {
        const at = (a: number, b: number, c: number, d: number) =>
          (1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t * t * c + t ** 3 * d;
        expect(Math.hypot(at(x0, x1, x2, x3) - 5, at(y0, y1, y2, y3) - 5)).toBeCloseTo(4, 2);
      }
      [x0, y0] = [x3, y3];
    }
  });
  test("round corners, polygons, width and height in place of a view box, fills of none left out", () => {
    const { width, shapes } = picture(
      '<rect width="4" height="2" rx="1"/><polygon points="0,0 4,0 2,3"/><path fill="none" d="M0 0h1"/>',
      'width="12px" height="6"',
    );
    expect(width).toBe(12);
    expect(shapes).toHaveLength(2);
  });
});

describe("what could run, load, or look different elsewhere is refused, by name", () => {
  test.each([
    ["<script>alert(1)</script>", "<script>"],
    ['<path d="M0 0h1v1z" onload="x()"/>', "a script (onload)"],
    ["<text>Shop</text>", "<text>"],
    ['<image href="x.png"/>', "<image>"],
    ['<use href="#a"/>', "<use>"],
    ["<style>path{fill:red}</style>", "<style>"],
    ['<path d="M0 0h1v1z" style="fill:red"/>', "`style` on <path>"],
    ['<path d="M0 0h1v1z" stroke="#000"/>', "a line on <path>: turn lines into outlines"],
    ['<path d="M0 0h1v1z" fill="url(#a)"/>', "the fill `url(#a)`: write it as #rrggbb"],
    ['<linearGradient id="a"/>', "<linearGradient>"],
    ['<g filter="url(#f)"/>', "`filter` on <g>"],
    ["<foreignObject/>", "<foreignObject>"],
    ['<svg viewBox="0 0 1 1"/>', "a drawing inside the drawing"],
    ["words", "text: turn it into outlines"],
    ['<path d="M0 0 nonsense"/>', "a path that cannot be read"],
    ['<path d="M0 0h1v1z" transform="skewX(3)"/>', "the transform `skewX(3)`"],
    ['<circle cx="1"/>', "a <circle> without its size"],
    ["", "no filled shape"],
  ])("%s", (inside, why) => expect(fault(svg(inside))).toBe(`it holds ${why}`));
  test("entities and document types", () => {
    const file = '<!DOCTYPE svg [<!ENTITY a "b">]><svg viewBox="0 0 1 1"><path d="M0 0h1v1z"/></svg>';
    expect(fault(bytes(file))).toBe("it holds a document type");
  });
  test("broken files", () => {
    expect(fault(bytes("<svg"))).toMatch(/^it is not well formed: /);
    expect(fault(bytes('<svg viewBox="0 0 1 1"><g></svg>'))).toMatch(/^it is not well formed: /);
    expect(fault(svg('<path d="M0 0h1v1z"/>', ""))).toBe("it holds no size: it wants a viewBox");
    expect(fault(svg(`<path d="M0 0${"h1".repeat(30_000)}z"/>`))).toBe("it holds more than 20000 steps of paths");
  });
});

test("an SVG file is told from pictures of pixels by its first tag", () => {
  expect(isSvg(bytes("\ufeff\n<svg/>"))).toBe(true);
  expect(isSvg(Uint8Array.of(0x89, 0x50, 0x4e, 0x47))).toBe(false);
  expect(isSvg(Uint8Array.of(0xff, 0xd8, 0xff))).toBe(false);
});
