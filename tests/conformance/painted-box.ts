import { glyphBoxes, programOf, usedFonts } from "./fonts-in-file.ts";
import { pageContents, paints } from "./page-content.ts";
import { get, type PdfFile } from "./pdf-file.ts";
import { isKind, nameOf, type Value } from "./values.ts";

/** Left, bottom, right, top, in the page's own space [pt]. */
export type Box = readonly [number, number, number, number];
type Matrix = readonly [number, number, number, number, number, number];
type Point = readonly [number, number];

const IDENTITY: Matrix = [1, 0, 0, 1, 0, 0];
const times = ([a, b, c, d, e, f]: Matrix, [A, B, C, D, E, F]: Matrix): Matrix => [
  a * A + b * C,
  a * B + b * D,
  c * A + d * C,
  c * B + d * D,
  e * A + f * C + E,
  e * B + f * D + F,
];
const moved = ([x, y]: Point, [a, b, c, d, e, f]: Matrix): Point => [a * x + c * y + e, b * x + d * y + f];
const corners = ([left, bottom, right, top]: Box): readonly Point[] => [
  [left, bottom],
  [right, bottom],
  [left, top],
  [right, top],
];

const EVERYWHERE: Box = [-Infinity, -Infinity, Infinity, Infinity];
/** The part of a box that another leaves of it. */
const within = (box: Box, by: Box): Box => [
  Math.min(Math.max(box[0], by[0]), by[2]),
  Math.min(Math.max(box[1], by[1]), by[3]),
  Math.max(Math.min(box[2], by[2]), by[0]),
  Math.max(Math.min(box[3], by[3]), by[1]),
];

/** The box of all that each marked content paints, by `page/mcid`: paths without their pen, glyphs by their outlines, images. */
export function paintedBoxes(file: PdfFile): ReadonlyMap<string, Box> {
  const fonts = new Map(
    usedFonts(file).flatMap((font) => {
      const program = programOf(file, font);
      return program ? [[font.dict, glyphBoxes(program)] as const] : [];
    }),
  );
  const found = new Map<string, Box>();
  for (const { number, operations, resources } of pageContents(file)) {
    let [ctm, text, size, shown] = [IDENTITY, IDENTITY, 0, undefined as ReturnType<typeof glyphBoxes> | undefined];
    let clip = EVERYWHERE;
    const saved: (readonly [Matrix, Box])[] = [];
    let path: Point[] = [];
    for (const operation of operations) {
      const { operator, operands, marks } = operation;
      const numbers = operands.filter((one) => typeof one === "number");
      const pairs = numbers.flatMap((x, i): Point[] => (i % 2 ? [] : [[x, numbers[i + 1]!]]));
      if (operator === "q") saved.push([ctm, clip]);
      else if (operator === "Q") [ctm, clip] = saved.pop()!;
      else if (operator === "W" || operator === "W*") clip = within(boxAbout(path), clip);
      else if (operator === "cm") ctm = times(numbers as unknown as Matrix, ctm);
      else if (operator === "Tm") text = numbers as unknown as Matrix;
      else if (operator === "Tf") {
        const font = get(file, resources, "Font", nameOf(operands[0]) ?? "");
        [size, shown] = [numbers[0]!, isKind(font, "dict") ? fonts.get(font) : undefined];
      } else if (["m", "l", "c"].includes(operator)) path.push(...pairs.map((point) => moved(point, ctm)));
      else if (operator === "re") {
        const [x, y, width, height] = numbers as [number, number, number, number];
        path.push(...corners([x, y, x + width, y + height]).map((point) => moved(point, ctm)));
      } else if (operator === "n") path = [];
      if (!paints(operation)) continue;
      if (operator === "Do") path = corners([0, 0, 1, 1]).map((point) => moved(point, ctm));
      if (operator === "TJ" && shown) {
        const glyphs = glyphsOf(operands[0] as readonly Value[], shown, size);
        path = glyphs.flatMap(corners).map((point) => moved(point, times(text, ctm)));
      }
      const mcid = marks.find((mark) => mark.mcid !== undefined)?.mcid;
      const key = `${number}/${mcid}`;
      if (mcid !== undefined && path.length > 0)
        found.set(key, boxAbout(corners(within(boxAbout(path), clip)), found.get(key)));
      path = [];
    }
  }
  return found;
}

/** Each glyph's box along a line of text that starts at 0. */
function glyphsOf(parts: readonly Value[], fonts: ReturnType<typeof glyphBoxes>, size: number): readonly Box[] {
  let x = 0;
  return parts.flatMap((part): Box[] => {
    if (typeof part === "number") x -= (part * size) / 1000;
    if (!isKind(part, "text")) return [];
    const codes = Array.from({ length: part.text.length / 2 }, (_, i) => part.text.slice(2 * i, 2 * i + 2));
    return codes.flatMap((code): Box[] => {
      const { box, advance } = fonts[code.charCodeAt(0) * 256 + code.charCodeAt(1)]!;
      const at = x;
      x += advance * size;
      return box ? [[at + box[0] * size, box[1] * size, at + box[2] * size, box[3] * size]] : [];
    });
  });
}

function boxAbout(points: readonly Point[], known?: Box): Box {
  const all = [...points, ...(known ? corners(known) : [])];
  const [xs, ys] = [all.map(([x]) => x), all.map(([, y]) => y)];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}
