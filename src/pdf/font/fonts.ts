import { createRequire } from "node:module";
import type * as Fontkit from "fontkit";
import { cachedMeasure } from "../../text/cached-measure.ts";
import type { Measure, Weight } from "../../text/measure.ts";
import { type FontFile, readFontFile } from "./font-file.ts";
import { fontPaths } from "./font-paths.ts";
import { factsOf, shapeByFontkit } from "./shape-by-fontkit.ts";
import { type FontFacts, type Shaped, type ShapingTable, shapeByTable } from "./shaping.ts";

/** One weight. What was found out once serves every document. */
export type Face = {
  readonly facts: FontFacts;
  /** A word, with the space after it, as glyphs. */
  readonly shape: (word: string) => Shaped;
  readonly draws: (letter: string) => boolean;
  /** The font itself, for what is embedded of it; read when first asked for. */
  readonly file: () => FontFile;
};

/** The three weights we set, and the measure that agrees with what they paint. */
export type Fonts = {
  readonly paths: Readonly<Record<Weight, string>>;
  readonly faces: Readonly<Record<Weight, Face>>;
  readonly measure: Measure;
};

/** What the build made out about the fonts, and how to read their files. */
export type Prepared = {
  readonly tables: Readonly<Record<Weight, ShapingTable>>;
  readonly read: (path: string) => Uint8Array;
};

/** Opens the bundled fonts; unprepared, fontkit takes them apart, for the same result. */
export function openFonts(prepared?: Prepared): Fonts {
  const paths = fontPaths();
  const open = (weight: Weight) =>
    prepared ? preparedFace(paths[weight], prepared, weight) : faceByFontkit(() => fontkit().openSync(paths[weight]));
  const faces = { regular: open("regular"), semibold: open("semibold"), bold: open("bold") };
  return { paths, faces, measure: cachedMeasure(measureOf(faces)) };
}

/** What the build made out about the fonts; throws when it is not there, for then the build is older than the code. */
export function readShaping(json: string): Prepared["tables"] {
  const { regular, semibold, bold } = JSON.parse(json) as Partial<Prepared["tables"]>;
  if (!regular || !semibold || !bold) throw new Error("the shaping of the fonts is incomplete: build again");
  return { regular, semibold, bold };
}

/** Loaded where it is needed only: texts of common letters do without. */
const fontkit = () => createRequire(import.meta.url)("fontkit") as typeof Fontkit;

function preparedFace(path: string, { tables, read }: Prepared, weight: Weight): Face {
  const common = shapeByTable(tables[weight]);
  const known = new Set(tables[weight].letters);
  const whole = once(() => fontkit().openSync(path));
  const any = once(() => shapeByFontkit(whole()));
  return {
    facts: tables[weight].facts,
    shape: keptByWord((word) => common(word) ?? any()(word)),
    draws: (letter) => known.has(letter) || whole().hasGlyphForCodePoint(letter.codePointAt(0)!),
    file: once(() => readFontFile(read(path))),
  };
}

function faceByFontkit(open: () => Fontkit.Face): Face {
  const face = open();
  return {
    facts: factsOf(face),
    shape: keptByWord(shapeByFontkit(face)),
    draws: (letter) => face.hasGlyphForCodePoint(letter.codePointAt(0)!),
    file: once(() => readFontFile(face.stream.buffer)),
  };
}

/**
 * Words of a batch kept in their shapes, and their widths. A sheet has some hundred; each brings a dozen numbers of its own, which
 * nobody asks for again: in an archive they would pile up, at a kilobyte each.
 */
const WORDS = 5_000;

function keptByWord<T>(make: (word: string) => T): (word: string) => T {
  const words = new Map<string, T>();
  return (word) => {
    const known = words.get(word);
    if (known !== undefined) return known;
    if (words.size >= WORDS) words.clear();
    const made = make(word);
    words.set(word, made);
    return made;
  };
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

function measureOf(faces: Fonts["faces"]): Measure {
  const { unitsPerEm, ascent, descent, capHeight, xHeight } = faces.regular.facts;
  const advanceOf = ({ shape, facts }: Face) =>
    keptByWord((word) => shape(word).advances.reduce((sum, one) => sum + one, 0) / facts.unitsPerEm);
  const advance: Readonly<Record<Weight, (word: string) => number>> = {
    regular: advanceOf(faces.regular),
    semibold: advanceOf(faces.semibold),
    bold: advanceOf(faces.bold),
  };
  return {
    width: (text, weight, size) => wordsOf(text).reduce((sum, word) => sum + advance[weight](word), 0) * size,
    missing: (text) => [...new Set(text)].filter((letter) => !faces.regular.draws(letter)),
    capHeight: capHeight / unitsPerEm,
    xHeight: xHeight / unitsPerEm,
    ascent: ascent / unitsPerEm,
    descent: -descent / unitsPerEm,
  };
}

/** Words with the space after them: what is shaped at a time, so that kerning across it agrees. */
export const wordsOf = (text: string): readonly string[] => text.match(/[^ \t]*[ \t]|[^ \t]+$/gu) ?? [];
