import { createRequire } from "node:module";
import { type Face, openSync, type Run } from "fontkit";
import type { Measure, Weight } from "../text/measure.ts";

/** The three weights we set, opened once, and the measure that agrees with what they paint. */
export type Fonts = {
  readonly paths: Readonly<Record<Weight, string>>;
  /** pdfkit takes a face as it is: parsed once, shared by every document. */
  readonly faces: Readonly<Record<Weight, Face>>;
  readonly measure: Measure;
};

const FAMILY = "@expo-google-fonts/ibm-plex-sans";
const FILES: Readonly<Record<Weight, string>> = {
  regular: "400Regular/IBMPlexSans_400Regular.ttf",
  semibold: "600SemiBold/IBMPlexSans_600SemiBold.ttf",
  bold: "700Bold/IBMPlexSans_700Bold.ttf",
};

/** Opens the bundled fonts. */
export function openFonts(): Fonts {
  const require = createRequire(import.meta.url);
  const paths = mapWeights((weight) => require.resolve(`${FAMILY}/${FILES[weight]}`));
  const faces = mapWeights((weight) => shapingOnce(withOwnLetters(openSync(paths[weight]))));
  return { paths, faces, measure: measureOf(faces) };
}

/**
 * A face whose glyphs stand for the letters of the font's own map, whoever asked for them first. fontkit keeps a glyph with the
 * letters of its first use, none where it was a part of another ("O" of "Ö"): in a later document, text could not be copied.
 */
function withOwnLetters(face: Face): Face {
  const make = face.getGlyph.bind(face);
  const letters = new Map<number, readonly number[]>();
  face.getGlyph = (id, points = []) => {
    let own = letters.get(id);
    if (own === undefined) {
      own = face
        .stringsForGlyph(id)
        .slice(0, 1)
        .map((text) => text.codePointAt(0)!);
      letters.set(id, own);
    }
    return make(id, own.length > 0 ? own : points);
  };
  return face;
}

/** Words of a batch kept in their shapes: some thousands at most, unless somebody feeds us a dictionary. */
const WORDS = 20_000;

/** A face that shapes each word once, for measuring and for every document painted. */
function shapingOnce(face: Face): Face {
  const shape = face.layout.bind(face);
  const runs = new Map<string, Run>();
  const runOf = (word: string): Run => {
    const known = runs.get(word);
    if (known) return known;
    const { glyphs, positions, advanceWidth } = shape(word);
    if (runs.size >= WORDS) runs.clear();
    const run = { glyphs, positions, advanceWidth };
    runs.set(word, run);
    return run;
  };
  face.layout = (text, features) => {
    if (features !== undefined) return shape(text, features);
    const run = runOf(text);
    // pdfkit scales the positions it is given, in place: it gets its own.
    return { ...run, positions: run.positions.map((position) => ({ ...position })) };
  };
  return face;
}

const mapWeights = <T>(make: (weight: Weight) => T): Readonly<Record<Weight, T>> => ({
  regular: make("regular"),
  semibold: make("semibold"),
  bold: make("bold"),
});

function measureOf(faces: Readonly<Record<Weight, Face>>): Measure {
  const { unitsPerEm, ascent, descent, capHeight, xHeight } = faces.regular;
  const advances = mapWeights(() => new Map<string, number>());
  const advance = (word: string, weight: Weight): number => {
    const known = advances[weight].get(word);
    if (known !== undefined) return known;
    const width = faces[weight].layout(word).advanceWidth / faces[weight].unitsPerEm;
    advances[weight].set(word, width);
    return width;
  };
  return {
    width: (text, weight, size) => wordsOf(text).reduce((sum, word) => sum + advance(word, weight), 0) * size,
    missing: (text) =>
      [...new Set(text)].filter((letter) => !faces.regular.hasGlyphForCodePoint(letter.codePointAt(0)!)),
    capHeight: capHeight / unitsPerEm,
    xHeight: xHeight / unitsPerEm,
    ascent: ascent / unitsPerEm,
    descent: -descent / unitsPerEm,
  };
}

/** Words with the space after them: what pdfkit shapes at a time, so that kerning across it agrees. */
const wordsOf = (text: string): readonly string[] => text.match(/[^ \t]*[ \t]|[^ \t]+$/gu) ?? [];
