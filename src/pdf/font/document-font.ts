import type { PdfDocument, PdfReference } from "../file/pdf-document.ts";
import { rounded } from "../operators.ts";
import { type Face, wordsOf } from "./fonts.ts";
import { subsetFont } from "./subset-font.ts";

/** A weight as one document uses it: glyphs are numbered as they come, and only those are embedded. */
export type DocumentFont = {
  /** Its name on the pages. */
  readonly id: string;
  readonly reference: PdfReference;
  /** What shows a text, and moves each pair nearer or further: an operator, or more where a mark stands beside its letter. */
  readonly show: (text: string, x: number, y: number, size: number) => string;
  /** Writes the font, once all that it shows is known. */
  readonly finalize: () => void;
};

export function documentFont(doc: PdfDocument, face: Face, id: string): DocumentFont {
  const reference = doc.ref();
  const scale = 1000 / face.facts.unitsPerEm;
  /** By number in the document: the glyph, its width and its letters. The first is what stands for a missing one. */
  const glyphs = [0];
  const widths = [face.file().glyph(0).metrics.readUInt16BE(0) * scale];
  const letters: (readonly number[])[] = [[0]];
  /** The number of each glyph, as it is written. */
  const codes = new Map<number, string>([[0, "0000"]]);

  const codeOf = (glyph: number, width: number, says: readonly number[]) => {
    const known = codes.get(glyph);
    if (known !== undefined) return known;
    const code = hex(glyphs.length);
    codes.set(glyph, code);
    glyphs.push(glyph);
    widths.push(width * scale);
    letters.push(says);
    return code;
  };

  const show: DocumentFont["show"] = (text, x, y, size) => {
    const lines: string[] = [];
    const place = (dx: number, dy: number) => lines.push(`1 0 0 1 ${rounded(dx)} ${rounded(dy)} Tm`);
    let parts = "";
    let run = "";
    let kern = 0;
    const cut = () => {
      if (run !== "") parts += `${parts === "" ? "" : " "}<${run}> ${rounded(-kern)}`;
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
    for (const word of wordsOf(text)) {
      const shaped = face.shape(word);
      for (let i = 0; i < shaped.glyphs.length; i++) {
        const width = shaped.widths[i]!;
        const advance = shaped.advances[i]!;
        const [dx, dy] = shaped.offsets?.[i] ?? STRAIGHT;
        const aside = dx !== 0 || dy !== 0;
        if (aside) {
          flush();
          place(pen + dx * scale * em, y + dy * scale * em);
        } else if (moved) place(pen, y);
        run += codeOf(shaped.glyphs[i]!, width, shaped.letters[i]!);
        kern = advance * scale - width * scale;
        if (aside) flush();
        else if (kern !== 0) cut();
        moved = aside;
        pen += advance * scale * em;
      }
    }
    flush();
    return lines.join("\n");
  };

  const finalize = () => {
    const file = doc.ref();
    file.end(subsetFont(face.file(), glyphs));
    const { name, box, ascent, descent, capHeight, xHeight, italicAngle, flags } = face.facts;
    const tagged = `${tagOf(id)}+${name}`;
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
      W: [0, widths],
      CIDToGIDMap: "Identity",
    });
    descendant.end();
    const unicode = doc.ref();
    unicode.end(Buffer.from(unicodeMap(letters), "latin1"));
    Object.assign(reference.data, {
      Type: "Font",
      Subtype: "Type0",
      BaseFont: tagged,
      Encoding: "Identity-H",
      DescendantFonts: [descendant],
      ToUnicode: unicode,
    });
    reference.end();
  };
  return { id, reference, show, finalize };
}

const STRAIGHT = [0, 0] as const;

const hex = (value: number) => value.toString(16).padStart(4, "0");

/** Six capitals before the name say that this is a part of the font (ISO 32000-1, 9.6.4). */
const tagOf = (id: string) =>
  [1, 2, 3, 4, 5, 6].map((i) => String.fromCharCode((i < id.length ? id.charCodeAt(i) : 73) + 17)).join("");

/** What a reader copies, by glyph (ISO 32000-1, 9.10.3): a range holds 256 of them at most. */
function unicodeMap(letters: readonly (readonly number[])[]): string {
  const entries = letters.map((points) => `<${points.flatMap(utf16).map(hex).join(" ")}>`);
  const ranges = Array.from({ length: Math.ceil(entries.length / 256) }, (_, i) => {
    const part = entries.slice(256 * i, 256 * (i + 1));
    return `<${hex(256 * i)}> <${hex(256 * i + part.length - 1)}> [${part.join(" ")}]`;
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

const utf16 = (point: number): readonly number[] =>
  [...String.fromCodePoint(point)].flatMap((letter) =>
    Array.from({ length: letter.length }, (_, i) => letter.charCodeAt(i)),
  );
