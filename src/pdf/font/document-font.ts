import type { PdfDocument, PdfReference } from "../file/pdf-document.ts";
import { roundNumber } from "../operators.ts";
import { type Face, splitWords } from "./fonts.ts";
import { subsetFont } from "./subset-font.ts";

/** A weight as used by one document: glyphs are numbered in order of use, and only these are embedded. */
export type DocumentFont = {
  /** Resource name on the pages. */
  readonly id: string;
  readonly reference: PdfReference;
  /** Text-showing operators with kerning; more than one when a mark is displaced from its letter. */
  readonly show: (text: string, x: number, y: number, size: number) => string;
  /** Writes the font, once all text is shown. */
  readonly finalize: () => void;
};

export function createDocumentFont(doc: PdfDocument, face: Face, id: string): DocumentFont {
  const reference = doc.ref();
  const subset = createSubset(face);
  return {
    id,
    reference,
    show: (text, x, y, size) => showText(face, subset, text, x, y, size),
    finalize: () => writeFont(doc, reference, face, subset, id),
  };
}

/** Glyphs used in a document, by their number in it; the first is the glyph for missing characters. */
type Subset = {
  readonly glyphs: readonly number[];
  /** In thousandths of an em. */
  readonly widths: readonly number[];
  readonly letters: readonly (readonly number[])[];
  /** The hexadecimal code of a glyph, which is added to the subset at its first use. */
  readonly codeOf: (glyph: number, width: number, letters: readonly number[]) => string;
};

const scaleOf = (face: Face) => 1000 / face.facts.unitsPerEm;

function createSubset(face: Face): Subset {
  const glyphs = [0];
  const widths = [face.file().glyph(0).metrics.readUInt16BE(0) * scaleOf(face)];
  const letters: (readonly number[])[] = [[0]];
  const codes = new Map<number, string>([[0, "0000"]]);
  const codeOf: Subset["codeOf"] = (glyph, width, text) => {
    const known = codes.get(glyph);
    if (known !== undefined) return known;
    const code = formatCode(glyphs.length);
    codes.set(glyph, code);
    glyphs.push(glyph);
    widths.push(width * scaleOf(face));
    letters.push(text);
    return code;
  };
  return { glyphs, widths, letters, codeOf };
}

function showText(face: Face, subset: Subset, text: string, x: number, y: number, size: number): string {
  const scale = scaleOf(face);
  const lines: string[] = [];
  const place = (dx: number, dy: number) => lines.push(`1 0 0 1 ${roundNumber(dx)} ${roundNumber(dy)} Tm`);
  let parts = "";
  let run = "";
  let kern = 0;
  const cut = () => {
    if (run !== "") parts += `${parts === "" ? "" : " "}<${run}> ${roundNumber(-kern)}`;
    run = "";
    kern = 0;
  };
  const flush = () => {
    cut();
    if (parts !== "") lines.push(`[${parts}] TJ`);
    parts = "";
  };
  const em = size / 1000;
  let moved = false;
  let pen = x;
  for (const word of splitWords(text)) {
    const shaped = face.shape(word);
    for (let i = 0; i < shaped.glyphs.length; i++) {
      const width = shaped.widths[i]!;
      const advance = shaped.advances[i]!;
      const [dx, dy] = shaped.offsets?.[i] ?? NO_OFFSET;
      const displaced = dx !== 0 || dy !== 0;
      if (displaced) {
        flush();
        place(pen + dx * scale * em, y + dy * scale * em);
      } else if (moved) place(pen, y);
      run += subset.codeOf(shaped.glyphs[i]!, width, shaped.letters[i]!);
      kern = advance * scale - width * scale;
      if (displaced) flush();
      else if (kern !== 0) cut();
      moved = displaced;
      pen += advance * scale * em;
    }
  }
  flush();
  return lines.join("\n");
}

/** Writes the objects of a composite font with its subset embedded (ISO 32000-1, 9.7). */
function writeFont(doc: PdfDocument, reference: PdfReference, face: Face, subset: Subset, id: string): void {
  const scale = scaleOf(face);
  const file = doc.ref();
  file.end(subsetFont(face.file(), subset.glyphs));
  const { name, box, ascent, descent, capHeight, xHeight, italicAngle, flags } = face.facts;
  const tagged = `${subsetTag(id)}+${name}`;
  const descriptor = doc.ref({
    Type: "FontDescriptor",
    FontName: tagged,
    Flags: flags,
    FontBBox: box.map((side) => side * scale),
    ItalicAngle: italicAngle,
    Ascent: ascent * scale,
    Descent: descent * scale,
    CapHeight: capHeight * scale,
    XHeight: xHeight * scale,
    StemV: 0,
    FontFile2: file,
  });
  descriptor.end();
  const descendant = doc.ref({
    Type: "Font",
    Subtype: "CIDFontType2",
    BaseFont: tagged,
    CIDSystemInfo: { Registry: new String("Adobe"), Ordering: new String("Identity"), Supplement: 0 },
    FontDescriptor: descriptor,
    W: [0, subset.widths],
    CIDToGIDMap: "Identity",
  });
  descendant.end();
  const unicode = doc.ref();
  unicode.end(Buffer.from(toUnicodeMap(subset.letters), "latin1"));
  Object.assign(reference.data, {
    Type: "Font",
    Subtype: "Type0",
    BaseFont: tagged,
    Encoding: "Identity-H",
    DescendantFonts: [descendant],
    ToUnicode: unicode,
  });
  reference.end();
}

const NO_OFFSET = [0, 0] as const;

const formatCode = (value: number) => value.toString(16).padStart(4, "0");

/** Six capitals that mark the name of a subset (ISO 32000-1, 9.6.4). */
const subsetTag = (id: string) =>
  [1, 2, 3, 4, 5, 6].map((i) => String.fromCharCode((i < id.length ? id.charCodeAt(i) : 73) + 17)).join("");

/** The ToUnicode map, for text extraction (ISO 32000-1, 9.10.3): a range has at most 256 codes. */
function toUnicodeMap(letters: readonly (readonly number[])[]): string {
  const entries = letters.map((points) => `<${points.flatMap(utf16Units).map(formatCode).join(" ")}>`);
  const ranges = Array.from({ length: Math.ceil(entries.length / 256) }, (_, i) => {
    // The glyph for missing characters is no letter.
    const first = Math.max(1, 256 * i);
    const part = entries.slice(first, 256 * (i + 1));
    return `<${formatCode(first)}> <${formatCode(first + part.length - 1)}> [${part.join(" ")}]`;
  });
  return `\
/CIDInit /ProcSet findresource begin
12 dict begin
begincmap
/CIDSystemInfo <<
  /Registry (Adobe)
  /Ordering (UCS)
  /Supplement 0
>> def
/CMapName /Adobe-Identity-UCS def
/CMapType 2 def
1 begincodespacerange
<0000><ffff>
endcodespacerange
${ranges.length} beginbfrange
${ranges.join("\n")}
endbfrange
endcmap
CMapName currentdict /CMap defineresource pop
end
end
`;
}

const utf16Units = (point: number): readonly number[] =>
  [...String.fromCodePoint(point)].flatMap((letter) =>
    Array.from({ length: letter.length }, (_, i) => letter.charCodeAt(i)),
  );
