/** The part of fontkit that we use; the package has no types of its own. */
declare module "fontkit" {
  export type Position = { xAdvance: number; yAdvance: number; xOffset: number; yOffset: number };
  /** A text as glyphs, set one after another. */
  export type Run = {
    readonly glyphs: readonly { readonly id: number; readonly advanceWidth: number }[];
    readonly positions: readonly Position[];
    readonly advanceWidth: number;
  };
  export type Face = {
    readonly postscriptName: string;
    readonly unitsPerEm: number;
    readonly ascent: number;
    readonly descent: number;
    readonly capHeight: number;
    readonly xHeight: number;
    readonly characterSet: readonly number[];
    readonly hasGlyphForCodePoint: (point: number) => boolean;
    readonly glyphForCodePoint: (point: number) => { readonly id: number; readonly codePoints: readonly number[] };
    /** A glyph, made once; `points` are the letters it stands for. */
    getGlyph: (
      id: number,
      points?: readonly number[],
    ) => { readonly id: number; readonly codePoints: readonly number[] };
    readonly stringsForGlyph: (id: number) => readonly string[];
    layout: (text: string, features?: unknown) => Run;
  };
  export function openSync(path: string): Face;
}
