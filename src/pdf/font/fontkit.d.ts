/** The part of fontkit in use; the package has no types of its own. */
declare module "fontkit" {
  export type Position = { xAdvance: number; yAdvance: number; xOffset: number; yOffset: number };
  export type Glyph = { readonly id: number; readonly advanceWidth: number; readonly codePoints: readonly number[] };
  /** A shaped text: glyphs and their positions. */
  export type Run = {
    readonly glyphs: readonly Glyph[];
    readonly positions: readonly Position[];
    readonly advanceWidth: number;
  };
  type List<T> = { get(index: number): T };
  /** Glyphs to which a table applies. */
  export type Coverage =
    | { readonly version: 1; readonly glyphs: readonly number[] }
    | { readonly version: 2; readonly rangeRecords: readonly { start: number; end: number }[] };
  export type Classes =
    | { readonly version: 1; readonly startGlyph: number; readonly classValueArray: readonly number[] }
    | { readonly version: 2; readonly classRangeRecord: readonly { start: number; end: number; class: number }[] };
  type Value = { readonly xAdvance: number };
  export type PairTable = { readonly coverage: Coverage } & (
    | { readonly version: 1; readonly pairSets: List<readonly { secondGlyph: number; value1: Value }[]> }
    | {
        readonly version: 2;
        readonly classDef1: Classes;
        readonly classDef2: Classes;
        readonly classRecords: List<List<{ readonly value1: Value }>>;
      }
  );
  type LigatureTable = {
    readonly coverage: Coverage;
    readonly ligatureSets: List<readonly { readonly components: readonly number[] }[]>;
  };
  /** The tables GSUB and GPOS: scripts, their features, and the lookups of each feature. */
  type Layout<Table> = {
    readonly scriptList: readonly {
      tag: string;
      script: { defaultLangSys: { featureIndexes: readonly number[] } };
    }[];
    readonly featureList: readonly { tag: string; feature: { lookupListIndexes: readonly number[] } }[];
    readonly lookupList: List<{ readonly subTables: readonly Table[] }>;
  };
  export type Face = {
    readonly postscriptName: string;
    readonly unitsPerEm: number;
    readonly ascent: number;
    readonly descent: number;
    readonly capHeight: number;
    readonly xHeight: number;
    readonly italicAngle: number;
    readonly bbox: { readonly minX: number; readonly minY: number; readonly maxX: number; readonly maxY: number };
    readonly post: { readonly isFixedPitch: number };
    readonly head: { readonly macStyle: { readonly italic: boolean } };
    readonly "OS/2"?: { readonly sFamilyClass: number };
    readonly GSUB: Layout<LigatureTable>;
    readonly GPOS: Layout<{ readonly extension: PairTable }>;
    readonly characterSet: readonly number[];
    /** The bytes of the font file. */
    readonly stream: { readonly buffer: Uint8Array };
    readonly hasGlyphForCodePoint: (point: number) => boolean;
    /** Returns a cached glyph. */
    getGlyph: (id: number) => Glyph;
    readonly stringsForGlyph: (id: number) => readonly string[];
    layout: (text: string) => Run;
  };
  export function openSync(path: string): Face;
}
