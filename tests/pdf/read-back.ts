import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";

/** A text as a reader finds it: points from the top left corner, `y` the baseline; `angle` in degrees clockwise. */
export type ReadText = {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly size: number;
  readonly font: string;
  readonly angle: number;
};
/** A painted path: its points in order (ends of curves only), from the top left corner, in points. */
export type ReadPath = {
  readonly points: readonly (readonly [number, number])[];
  readonly stroke?: { readonly color: string; readonly width: number; readonly dash: readonly number[] };
  readonly fill?: string;
};
export type ReadPage = {
  readonly width: number;
  readonly height: number;
  readonly texts: readonly ReadText[];
  readonly paths: readonly ReadPath[];
};

/** Reads a PDF back as somebody else's reader sees it: texts with their places, and vector paths. */
export const readBack = (bytes: Uint8Array): Promise<readonly ReadPage[]> =>
  eachPage(bytes, async (page, pdfjs) => {
    const [, , width, height] = page.view;
    const list = await page.getOperatorList();
    const { items } = await page.getTextContent();
    const texts = items.flatMap((item): ReadText[] => {
      if (item.str.trim() === "") return [];
      const [a, b, , , x, y] = item.transform;
      const size = Math.hypot(a, b);
      const font = page.commonObjs.get(item.fontName).name.replace(/^[A-Z]{6}\+/, "");
      const angle = (-Math.atan2(b, a) * 180) / Math.PI + 0;
      return [{ text: item.str, x, y: height - y, width: item.width, size, font, angle }];
    });
    return { width, height, texts, paths: paths(list, pdfjs.OPS, height) };
  });

/** The words of each page, in a third of the time: what is painted is gone through, but handed over is its text alone. */
export const readWords = (bytes: Uint8Array): Promise<readonly string[]> =>
  eachPage(bytes, async (page) => (await page.getTextContent()).items.map(({ str }) => str).join(" "));

async function eachPage<T>(bytes: Uint8Array, read: (page: PdfjsPage, pdfjs: Pdfjs) => Promise<T>): Promise<T[]> {
  const { push } = Array.prototype;
  const pdfjs = await reader();
  const task = pdfjs.getDocument({ data: new Uint8Array(bytes), verbosity: 0 });
  const doc = await task.promise;
  // Its parts, as they load, put a slow one in place, for arrays of locked length, which nobody here has.
  Array.prototype.push = push;
  const pages: T[] = [];
  for (let number = 1; number <= doc.numPages; number++) pages.push(await read(await doc.getPage(number), pdfjs));
  await task.destroy();
  return pages;
}

type Matrix = readonly [number, number, number, number, number, number];
type Operators = { readonly fnArray: readonly number[]; readonly argsArray: readonly unknown[] };
type Pdfjs = {
  readonly OPS: Readonly<Record<string, number>>;
  getDocument(source: object): { readonly promise: Promise<PdfjsDocument>; destroy(): Promise<void> };
};
type PdfjsDocument = { readonly numPages: number; getPage(number: number): Promise<PdfjsPage> };
type PdfjsPage = {
  readonly view: readonly [number, number, number, number];
  readonly commonObjs: { get(name: string): { readonly name: string } };
  getOperatorList(): Promise<Operators>;
  getTextContent(): Promise<{
    readonly items: readonly { str: string; transform: Matrix; width: number; fontName: string }[];
  }>;
};

/** The very copy of pdf.js that pdf-parse brings: two of them in one process disturb each other. */
async function reader(): Promise<Pdfjs> {
  const ours = createRequire(import.meta.url);
  const theirs = createRequire(ours.resolve("pdf-parse"));
  return import(pathToFileURL(theirs.resolve("pdfjs-dist/legacy/build/pdf.mjs")).href);
}

type State = {
  readonly matrix: Matrix;
  readonly width: number;
  readonly dash: readonly number[];
  readonly stroke: string;
  readonly fill: string;
};

function paths({ fnArray, argsArray }: Operators, ops: Pdfjs["OPS"], height: number): readonly ReadPath[] {
  const found: ReadPath[] = [];
  const stack: State[] = [];
  let state: State = { matrix: [1, 0, 0, 1, 0, 0], width: 1, dash: [], stroke: "#000000", fill: "#000000" };
  fnArray.forEach((fn, i) => {
    const args = argsArray[i] as readonly never[];
    if (fn === ops.save) stack.push(state);
    else if (fn === ops.restore) state = stack.pop() ?? state;
    else if (fn === ops.transform) state = { ...state, matrix: times(state.matrix, args as unknown as Matrix) };
    else if (fn === ops.setLineWidth) state = { ...state, width: args[0]! };
    else if (fn === ops.setDash) state = { ...state, dash: [...(args[0]! as number[])] };
    else if (fn === ops.setStrokeRGBColor) state = { ...state, stroke: args[0]! };
    else if (fn === ops.setFillRGBColor) state = { ...state, fill: args[0]! };
    else if (fn === ops.constructPath) {
      const [how, [data]] = args as unknown as [number, [ArrayLike<number> | null]];
      const points = ends(data ?? []).map(([x, y]) => at(state.matrix, x, y, height));
      const { stroke: color, width, dash, fill } = state;
      const strokes = how === ops.stroke || how === ops.closeStroke || how === ops.fillStroke;
      const fills = how === ops.fill || how === ops.eoFill || how === ops.fillStroke;
      found.push({ points, ...(strokes ? { stroke: { color, width, dash } } : {}), ...(fills ? { fill } : {}) });
    }
  });
  return found;
}

// pdf.js 5.4 packs a path as 0 x y (move), 1 x y (line), 2 and six numbers (curve), 3 (close).
const operands = [2, 2, 6, 0];
function ends(data: ArrayLike<number>): readonly (readonly [number, number])[] {
  const points: [number, number][] = [];
  for (let i = 0; i < data.length; ) {
    const count = operands[data[i]!];
    if (count === undefined) throw new Error(`unknown path operator ${data[i]}`);
    if (count > 0) points.push([data[i + count - 1]!, data[i + count]!]);
    i += count + 1;
  }
  return points;
}

const times = ([a, b, c, d, e, f]: Matrix, [p, q, r, s, t, u]: Matrix): Matrix => [
  a * p + c * q,
  b * p + d * q,
  a * r + c * s,
  b * r + d * s,
  a * t + c * u + e,
  b * t + d * u + f,
];
const at = ([a, b, c, d, e, f]: Matrix, x: number, y: number, height: number) =>
  [a * x + c * y + e, height - (b * x + d * y + f)] as const;
