import { SaxesParser } from "saxes";
import { parseColor } from "./colors.ts";
import { type Matrix, multiply, parseTransform } from "./matrix.ts";
import { type PathStep, parsePath } from "./path.ts";
import { shapePath } from "./shapes.ts";

/** A drawing of filled shapes, in its own units, y downwards from its top left corner. */
export type VectorPicture = {
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly {
    readonly steps: readonly PathStep[];
    readonly fill: string;
    readonly evenOdd: boolean;
  }[];
};

/** Most steps of all paths: a logo of more is a picture. */
const MOST_STEPS = 20_000;

const GROUPS = ["svg", "g"];
const SHAPES = ["path", "rect", "circle", "ellipse", "polygon"];
/** Words about the drawing, which are not drawn. */
const WORDS = ["title", "desc", "metadata"];

/** What stands on an element and draws nothing of its own. */
const HARMLESS =
  /^(?:id|version|baseProfile|viewBox|width|height|role|xml:space|xmlns(?::\w+)?|aria-[\w-]+|data-[\w-]+)$/;
const GEOMETRY = /^(?:d|x|y|rx|ry|cx|cy|r|points|transform|fill|fill-rule)$/;
/** Attributes allowed with the one value that changes nothing. */
const NEUTRAL: Readonly<Record<string, string>> = { stroke: "none", opacity: "1", "fill-opacity": "1" };

type State = { readonly fill: string; readonly evenOdd: boolean; readonly matrix: Matrix };

/** Thrown for what a logo may not hold; its message ends "holds …". */
class Refusal extends Error {}

/** Whether bytes may be an SVG file: text that begins with a tag. */
export const isSvg = (bytes: Uint8Array): boolean => /^\uFEFF?\s*</.test(textOf(bytes.subarray(0, 64)));

const textOf = (bytes: Uint8Array) => new TextDecoder("utf-8").decode(bytes);

/**
 * Parses an SVG file of filled shapes. Whatever could run, load, or look different elsewhere is refused: scripts, text, links,
 * styles, strokes, gradients, references.
 */
export function parseSvg(bytes: Uint8Array): { readonly picture: VectorPicture } | { readonly fault: string } {
  try {
    return { picture: readSvg(textOf(bytes)) };
  } catch (error) {
    if (error instanceof Refusal) return { fault: `it holds ${error.message}` };
    return { fault: `it is not well formed: ${String((error as Error).message).split("\n")[0]}` };
  }
}

function readSvg(text: string): VectorPicture {
  const parser = new SaxesParser();
  const states: State[] = [{ fill: "#000000", evenOdd: false, matrix: [1, 0, 0, 1, 0, 0] }];
  const shapes: VectorPicture["shapes"][number][] = [];
  let frame: { readonly x: number; readonly y: number; readonly width: number; readonly height: number } | undefined;
  let silent = 0;
  let steps = 0;
  parser.on("doctype", () => refuse("a document type"));
  parser.on("processinginstruction", ({ target }) => refuse(`an instruction (${target})`));
  parser.on("text", (words) => {
    if (silent === 0 && words.trim() !== "") refuse("text: turn it into outlines");
  });
  parser.on("cdata", () => refuse("a block of raw text"));
  parser.on("opentag", ({ name, attributes }) => {
    if (silent > 0 || WORDS.includes(name)) {
      silent += 1;
      return;
    }
    const own = attributes as Readonly<Record<string, string>>;
    if (!GROUPS.includes(name) && !SHAPES.includes(name)) refuse(`<${name}>`);
    if ((name === "svg") !== (frame === undefined))
      refuse(frame ? "a drawing inside the drawing" : "no <svg> around it");
    checkAttributes(name, own);
    if (name === "svg") frame = readFrame(own);
    const state = inherit(states.at(-1)!, own);
    states.push(state);
    if (!SHAPES.includes(name) || state.fill === "none" || !frame) return;
    const d = name === "path" ? (own.d ?? "") : shapePath(name, own);
    if (d === undefined) refuse(`a <${name}> without its size`);
    const [a, b, c, e, f, g] = state.matrix;
    const path = parsePath(d as string, [a, b, c, e, f - frame.x, g - frame.y]);
    if (path === undefined) refuse("a path that cannot be read");
    steps += path!.length;
    if (steps > MOST_STEPS) refuse(`more than ${MOST_STEPS} steps of paths`);
    shapes.push({ steps: path!, fill: state.fill, evenOdd: state.evenOdd });
  });
  parser.on("closetag", () => {
    if (silent > 0) silent -= 1;
    else states.pop();
  });
  parser.write(text).close();
  if (!frame) return refuse("no drawing");
  if (shapes.length === 0) return refuse("no filled shape");
  return { width: frame.width, height: frame.height, shapes };
}

function refuse(what: string): never {
  throw new Refusal(what);
}

function checkAttributes(name: string, own: Readonly<Record<string, string>>): void {
  for (const [key, value] of Object.entries(own)) {
    if (HARMLESS.test(key) || GEOMETRY.test(key) || NEUTRAL[key] === value.trim()) continue;
    if (/^on/i.test(key)) refuse(`a script (${key})`);
    if (/href$/i.test(key)) refuse(`a reference (${key})`);
    if (/^stroke/.test(key)) refuse(`a line on <${name}>: turn lines into outlines`);
    refuse(`\`${key}\` on <${name}>`);
  }
}

/** The part of the plane that is shown: the view box, else the size. */
function readFrame(own: Readonly<Record<string, string>>) {
  const numbers = (own.viewBox ?? "")
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  const [x = 0, y = 0, width = 0, height = 0] =
    numbers.length === 4 ? numbers : [0, 0, Number.parseFloat(own.width ?? ""), Number.parseFloat(own.height ?? "")];
  if (![x, y, width, height].every(Number.isFinite) || width <= 0 || height <= 0) refuse("no size: it wants a viewBox");
  return { x, y, width, height };
}

function inherit(outer: State, own: Readonly<Record<string, string>>): State {
  const fill = own.fill === undefined ? outer.fill : parseColor(own.fill);
  if (fill === undefined) refuse(`the fill \`${own.fill}\`: write it as #rrggbb`);
  const transform = own.transform === undefined ? undefined : parseTransform(own.transform);
  if (own.transform !== undefined && transform === undefined) refuse(`the transform \`${own.transform}\``);
  const rule = own["fill-rule"];
  return {
    fill: fill as string,
    evenOdd: rule === undefined ? outer.evenOdd : rule === "evenodd",
    matrix: transform ? multiply(outer.matrix, transform) : outer.matrix,
  };
}
