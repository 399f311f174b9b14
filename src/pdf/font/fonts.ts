import type * as Fontkit from "fontkit";
import { cachedMeasure, type Measure, type Weight } from "../../text/measure.ts";
import { type Family, type FontFile, parseFontFile, resolveFontPaths } from "./font-file.ts";
import { loadFontkit } from "./load-fontkit.ts";
import { createFontkitShaper, fontFacts } from "./shape-by-fontkit.ts";
import { createWordShaper, type FontFacts, type ShapedWord, type ShapingTable } from "./shaping.ts";

/** One weight of the font, shared by all documents. */
export type Face = {
  readonly facts: FontFacts;
  /** Shapes a word with the space after it. */
  readonly shape: (word: string) => ShapedWord;
  readonly draws: (letter: string) => boolean;
  /** The font file, for subsetting; read at first use. */
  readonly file: () => FontFile;
};

/** The three weights in use, and a text measure that agrees with the painted text. */
export type Fonts = {
  readonly paths: Readonly<Record<Weight, string>>;
  readonly faces: Readonly<Record<Weight, Face>>;
  readonly measure: Measure;
  /** Another typeface, opened at its first use. */
  readonly family: (name: Family) => Fonts;
};

/** Shaping tables and the folder of the fonts from the build, and a reader of font files. */
type BuiltShaping = {
  readonly folder: string;
  readonly tables: Readonly<Record<Weight, ShapingTable>>;
  readonly read: (path: string) => Uint8Array;
};

/** Opens the bundled fonts. Without tables from the build, fontkit shapes all text, with the same result. */
export function openFonts(built?: BuiltShaping): Fonts {
  const opened = new Map<Family, Fonts>();
  const family = (name: Family): Fonts => {
    const known = opened.get(name);
    if (known) return known;
    const fonts = openFamily(name, built, family);
    opened.set(name, fonts);
    return fonts;
  };
  return family("plex");
}

/** One typeface; only the default one has tables from the build. */
function openFamily(name: Family, built: BuiltShaping | undefined, family: Fonts["family"]): Fonts {
  const paths = resolveFontPaths(built?.folder, name);
  const open = (weight: Weight) =>
    built && name === "plex"
      ? createTableFace(paths[weight], built, weight)
      : createFontkitFace(() => loadFontkit().openSync(paths[weight]));
  const faces = { regular: open("regular"), medium: open("medium"), semibold: open("semibold") };
  return { paths, faces, measure: cachedMeasure(createMeasure(faces)), family };
}

/** Parses the shaping tables; throws when one is missing, since the build is then older than the code. */
export function parseShaping(json: string): BuiltShaping["tables"] {
  const { regular, medium, semibold } = JSON.parse(json) as Partial<BuiltShaping["tables"]>;
  if (!regular || !medium || !semibold) throw new Error("the shaping of the fonts is incomplete: build again");
  return { regular, medium, semibold };
}

function createTableFace(path: string, { tables, read }: BuiltShaping, weight: Weight): Face {
  const common = createWordShaper(tables[weight]);
  const known = new Set(tables[weight].letters);
  const whole = lazy(() => loadFontkit().openSync(path));
  const any = lazy(() => createFontkitShaper(whole()));
  return {
    facts: tables[weight].facts,
    shape: memoizeByWord((word) => common(word) ?? any()(word)),
    draws: (letter) => known.has(letter) || whole().hasGlyphForCodePoint(letter.codePointAt(0)!),
    file: lazy(() => parseFontFile(read(path))),
  };
}

function createFontkitFace(open: () => Fontkit.Face): Face {
  const face = open();
  return {
    facts: fontFacts(face),
    shape: memoizeByWord(createFontkitShaper(face)),
    draws: (letter) => face.hasGlyphForCodePoint(letter.codePointAt(0)!),
    file: lazy(() => parseFontFile(face.stream.buffer)),
  };
}

/**
 * Size of the caches of shaped words and widths, cleared when full. A sheet has some hundred words, a dozen of them numbers
 * that no other sheet has: over an archive they would take a kilobyte each.
 */
const MAX_WORDS = 5_000;

function memoizeByWord<T>(make: (word: string) => T): (word: string) => T {
  const words = new Map<string, T>();
  return (word) => {
    const known = words.get(word);
    if (known !== undefined) return known;
    if (words.size >= MAX_WORDS) words.clear();
    const made = make(word);
    words.set(word, made);
    return made;
  };
}

function lazy<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

/** Private use: the font draws two of them, but they say nothing to another reader (ISO 19005-3, 6.2.11.7.3). */
const PRIVATE = /\p{Co}/u;

function createMeasure(faces: Fonts["faces"]): Measure {
  const { unitsPerEm, ascent, descent, capHeight, xHeight } = faces.regular.facts;
  const advanceOf = ({ shape, facts }: Face) =>
    memoizeByWord((word) => shape(word).advances.reduce((sum, one) => sum + one, 0) / facts.unitsPerEm);
  const advance: Readonly<Record<Weight, (word: string) => number>> = {
    regular: advanceOf(faces.regular),
    semibold: advanceOf(faces.semibold),
    medium: advanceOf(faces.medium),
  };
  return {
    width: (text, weight, size) => splitWords(text).reduce((sum, word) => sum + advance[weight](word), 0) * size,
    missing: (text) => [...new Set(text)].filter((letter) => PRIVATE.test(letter) || !faces.regular.draws(letter)),
    capHeight: capHeight / unitsPerEm,
    xHeight: xHeight / unitsPerEm,
    ascent: ascent / unitsPerEm,
    descent: -descent / unitsPerEm,
  };
}

/** Splits a text into words with the space after them: the unit of shaping, so that measured and painted kerning agree. */
export const splitWords = (text: string): readonly string[] => text.match(/[^ \t]*[ \t]|[^ \t]+$/gu) ?? [];
