import { type Classes, type Coverage, type Face, openSync, type PairTable } from "fontkit";
import type { Weight } from "../../text/measure.ts";
import { resolveFontPaths } from "./font-file.ts";
import { fontFacts } from "./shape-by-fontkit.ts";
import type { ShapingTable } from "./shaping.ts";

/** Compiles the shaping tables of all weights; done at build time, since it parses the whole fonts. */
export function compileShaping(): Readonly<Record<Weight, ShapingTable>> {
  const paths = resolveFontPaths();
  return {
    regular: buildShapingTable(openSync(paths.regular)),
    semibold: buildShapingTable(openSync(paths.semibold)),
    medium: buildShapingTable(openSync(paths.medium)),
  };
}

/** Scripts of a table: OpenType tag and letters. */
const SCRIPTS = [
  { tag: "DFLT", letters: /\p{Script=Common}/u },
  { tag: "latn", letters: /\p{Script=Latin}/u },
  { tag: "grek", letters: /\p{Script=Greek}/u },
] as const;

/**
 * Latin and Greek letters, punctuation and symbols whose shape does not depend on the context: no combining marks, no
 * invisible characters, and no fraction slash, which turns neighbouring digits into a fraction.
 */
const TABLE_LETTER = /^(?![\p{M}\p{C}\u2044])[\u0020-\u017f\u0370-\u03ff\u2000-\u22ff]$/u;

function buildShapingTable(face: Face): ShapingTable {
  const letters = face.characterSet
    .map((point) => String.fromCodePoint(point))
    .filter((letter) => TABLE_LETTER.test(letter) && SCRIPTS.some((script) => script.letters.test(letter)));
  const scriptOf = (letter: string) => SCRIPTS.findIndex((script) => script.letters.test(letter));
  const ligatures = findLigatures(face);
  const places = [...letters, ...ligatures];
  const scripts = places.map((place) => scriptOf(place[0]!));
  const glyphs = places.map((place) => face.layout(place).glyphs[0]!.id);

  const kerns = SCRIPTS.map(({ tag }) => createKerning(face, tag));
  const rows = places.map((_, a) =>
    places.map((_, b) => {
      const script = scripts[a]! || scripts[b]!;
      const kern = kerns[script]!(glyphs[a]!, glyphs[b]!);
      // The table has one value for a pair of common letters, so they must kern alike in every script.
      if (script === 0 && kerns.some((other) => other(glyphs[a]!, glyphs[b]!) !== kern))
        throw new Error(`${face.postscriptName}: ${places[a]}${places[b]} is not set alike in every script`);
      return kern;
    }),
  );
  const left = groupEqualRows(rows);
  const right = groupEqualRows(places.map((_, b) => rows.map((row) => row[b]!)));
  return {
    facts: fontFacts(face),
    letters: letters.join(""),
    glyphs,
    widths: glyphs.map((glyph) => face.getGlyph(glyph).advanceWidth),
    copied: glyphs.map((glyph) => face.stringsForGlyph(glyph)[0]?.codePointAt(0) ?? 0),
    scripts: scripts.join(""),
    ligatures,
    left: left.kindOf,
    right: right.kindOf,
    kerning: left.firsts.map((a) => right.firsts.map((b) => rows[a]![b]!)),
  };
}

/** Classifies equal rows: the class of each row, and the index of the first row of each class. */
function groupEqualRows(rows: readonly (readonly number[])[]): { kindOf: number[]; firsts: number[] } {
  const known = new Map<string, number>();
  const firsts: number[] = [];
  const kindOf = rows.map((row, at) => {
    const key = row.join();
    const kind = known.get(key) ?? firsts.push(at) - 1;
    known.set(key, kind);
    return kind;
  });
  return { kindOf, firsts };
}

/** The ligatures of two letters among the default features; throws when the font has longer ones. */
function findLigatures(face: Face): readonly string[] {
  const { featureList, lookupList, scriptList } = face.GSUB;
  const liga = new Set(
    scriptList
      .flatMap(({ script }) => script.defaultLangSys.featureIndexes)
      .map((index) => featureList[index]!)
      .filter(({ tag }) => tag === "liga")
      .flatMap(({ feature }) => feature.lookupListIndexes),
  );
  return [...liga].flatMap((index) =>
    lookupList.get(index).subTables.flatMap(({ coverage, ligatureSets }) =>
      coveredGlyphs(coverage).flatMap((first, i) =>
        ligatureSets.get(i).map(({ components }) => {
          const pair = [first, ...components].map((glyph) => face.stringsForGlyph(glyph)[0] ?? "").join("");
          if (components.length !== 1 || pair.length !== 2)
            throw new Error(`${face.postscriptName}: ${pair} is not two letters`);
          return pair;
        }),
      ),
    ),
  );
}

/** Creates the kerning function of a script (OpenType 1.9, GPOS lookup type 2): in each lookup the first matching table counts. */
function createKerning(face: Face, tag: string): (a: number, b: number) => number {
  const { featureList, lookupList, scriptList } = face.GPOS;
  const script = scriptList.find((one) => one.tag === tag)!.script;
  const lookups = script.defaultLangSys.featureIndexes
    .map((index) => featureList[index]!)
    .filter(({ tag }) => tag === "kern")
    .flatMap(({ feature }) => feature.lookupListIndexes)
    .map((index) => lookupList.get(index).subTables.map(({ extension }) => createPairLookup(extension)));
  return (a, b) =>
    lookups.reduce((sum, tables) => {
      for (const table of tables) {
        const kern = table(a, b);
        if (kern !== undefined) return sum + kern;
      }
      return sum;
    }, 0);
}

/** Creates the lookup of one pair table, by glyphs or by glyph classes. */
function createPairLookup(table: PairTable): (a: number, b: number) => number | undefined {
  const places = new Map(coveredGlyphs(table.coverage).map((glyph, place) => [glyph, place]));
  if (table.version === 1) {
    const sets = new Map(
      [...places].map(([glyph, place]) => [
        glyph,
        new Map(table.pairSets.get(place).map(({ secondGlyph, value1 }) => [secondGlyph, value1.xAdvance])),
      ]),
    );
    return (a, b) => sets.get(a)?.get(b);
  }
  const [first, second] = [glyphClasses(table.classDef1), glyphClasses(table.classDef2)];
  return (a, b) =>
    places.has(a) ? table.classRecords.get(first.get(a) ?? 0).get(second.get(b) ?? 0).value1.xAdvance : undefined;
}

const range = (start: number, end: number) => Array.from({ length: end - start + 1 }, (_, i) => start + i);

const coveredGlyphs = (coverage: Coverage): readonly number[] =>
  coverage.version === 1 ? coverage.glyphs : coverage.rangeRecords.flatMap(({ start, end }) => range(start, end));

const glyphClasses = (classes: Classes): ReadonlyMap<number, number> =>
  new Map(
    classes.version === 1
      ? classes.classValueArray.map((kind, i) => [classes.startGlyph + i, kind])
      : classes.classRangeRecord.flatMap((one) =>
          range(one.start, one.end).map((glyph) => [glyph, one.class] as const),
        ),
  );
