import { join } from "node:path";
import fc from "fast-check";
import { openSync } from "fontkit";
import PDFDocument from "pdfkit";
import { describe, expect, test } from "vitest";
import { disk } from "../../src/io/disk.ts";
import { openDocument } from "../../src/pdf/file/pdf-document.ts";
import { compileShaping } from "../../src/pdf/font/compile-shaping.ts";
import { createDocumentFont } from "../../src/pdf/font/document-font.ts";
import { parseFontFile, resolveFontPaths } from "../../src/pdf/font/font-file.ts";
import { type Face, openFonts, parseShaping } from "../../src/pdf/font/fonts.ts";
import { subsetFont } from "../../src/pdf/font/subset-font.ts";
import type { Weight } from "../../src/text/measure.ts";
import { ROOT } from "../cli/run.ts";
import { meta } from "./a-pdf.ts";

const paths = resolveFontPaths();
const weights: readonly Weight[] = ["regular", "medium", "semibold"];
const files = { regular: fileOf("regular"), medium: fileOf("medium"), semibold: fileOf("semibold") };

function fileOf(weight: Weight): Uint8Array {
  const read = disk.readFile(paths[weight], 1 << 21);
  if (read.kind !== "read") throw new Error(`no font at ${paths[weight]}`);
  return read.bytes;
}

const tables = parseShaping(JSON.stringify(compileShaping()));
const folder = join(ROOT, "dist", "fonts");
const copies = resolveFontPaths(folder);
const prepared = openFonts({
  folder,
  tables,
  read: (path) => files[weights.find((weight) => copies[weight] === path)!],
});
const plain = openFonts();

/** Texts as sheets have them, with letters of other scripts, marks and joined letters among them. */
const text = fc
  .array(
    fc.oneof(
      { weight: 6, arbitrary: fc.string({ unit: "grapheme-ascii", minLength: 1, maxLength: 6 }) },
      {
        weight: 1,
        arbitrary: fc.constantFrom(
          "fi",
          "ffi",
          "fl",
          "Ω",
          "μ",
          "é",
          "Ö",
          "ß",
          "Ж",
          "½",
          "−",
          "±",
          "⌀",
          "e\u0301",
          "i\u0308",
          "1⁄2",
          "\u00ad",
          "😀",
          " ",
        ),
      },
    ),
    { maxLength: 6 },
  )
  .map((parts) => parts.join(""));

describe("a part of a font", () => {
  test.each(weights)("is byte for byte what fontkit writes of %s", (weight) => {
    const font = openSync(paths[weight]);
    const own = parseFontFile(files[weight]);
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 1, max: 1017 }), { maxLength: 120 }), (glyphs) => {
        const subset = (
          font as unknown as { createSubset(): { includeGlyph(id: number): void; encode(): Uint8Array } }
        ).createSubset();
        for (const glyph of glyphs) subset.includeGlyph(glyph);
        expect(subsetFont(own, [0, ...glyphs]).equals(subset.encode())).toBe(true);
      }),
      { numRuns: 30 },
    );
  });
});

describe("words set by the table that the build makes", () => {
  test.each(weights)("are set as fontkit sets them, in %s", (weight) =>
    fc.assert(
      fc.property(text, (words) => {
        for (const word of words.split(" "))
          expect(prepared.faces[weight].shape(word)).toEqual(plain.faces[weight].shape(word));
        expect(prepared.measure.missing(words)).toEqual(plain.measure.missing(words));
      }),
    ),
  );
  test("every two letters that are common on a sheet, each pair in one of the weights", () => {
    const letters = [...Array.from({ length: 95 }, (_, i) => String.fromCharCode(32 + i)), ..."×±−–°²³½µ"];
    for (const [i, a] of letters.entries())
      for (const [k, b] of letters.entries()) {
        const weight = weights[(i + k) % weights.length]!;
        expect(prepared.faces[weight].shape(a + b)).toEqual(plain.faces[weight].shape(a + b));
      }
  });
  test("the same facts", () => {
    for (const weight of weights) expect(prepared.faces[weight].facts).toEqual(plain.faces[weight].facts);
    const { width: _, missing: __, ...heights } = plain.measure;
    expect(prepared.measure).toMatchObject(heights);
  });
  test("a build older than the code is told", () => {
    expect(() => parseShaping("{}")).toThrow(/build again/);
  });
});

/** The operators between BT and ET that pdfkit itself writes for a text. */
async function byPdfkit(words: string, face: Face, path: string): Promise<string> {
  const doc = new PDFDocument({ compress: false, size: [300, 200], margin: 0, font: null as unknown as string });
  const chunks: Buffer[] = [];
  doc.on("data", (chunk: Buffer) => chunks.push(chunk));
  const ended = new Promise((resolve) => doc.on("end", resolve));
  doc.font(path).fontSize(8.5).text(words, 10, 20, { lineBreak: false, baseline: "alphabetic" });
  doc.end();
  await ended;
  expect(face.facts.name).toMatch(/^IBMPlexSans/);
  const found = /BT\n[^\n]* Tm\n[^\n]* Tf\n([\s\S]*?)\n?ET\n/.exec(Buffer.concat(chunks).toString("latin1"));
  return found?.[1] ?? "";
}

test("any text is shown by the operators that pdfkit writes", () =>
  fc.assert(
    fc.asyncProperty(text, fc.constantFrom(...weights), async (words, weight) => {
      const doc = openDocument(meta);
      const face = prepared.faces[weight];
      const own = createDocumentFont(doc, face, "F1").show(words, 10, 200 - 20, 8.5);
      expect(own).toBe(await byPdfkit(words, face, paths[weight]));
    }),
    { numRuns: 40 },
  ));
