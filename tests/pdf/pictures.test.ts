import { deflateSync } from "node:zlib";
import PDFDocument from "pdfkit";
import { expect, test, vi } from "vitest";
import type { PdfDocument } from "../../src/pdf/file/pdf-document.ts";
import { openPicture } from "../../src/pdf/pictures.ts";
import { png } from "../project/pictures.ts";

/** A page with one picture on it, opened by `open`. */
function pageWith(open: (doc: PdfDocument) => unknown): Promise<Buffer> {
  const info = { CreationDate: new Date(0) };
  const doc = new PDFDocument({ autoFirstPage: false, font: null as unknown as string, info });
  const own = doc as unknown as PdfDocument;
  own.addPage({ size: [20, 20], margin: 0 });
  own.image(open(own), 0, 0, { width: 20, height: 20 });
  return new Promise((resolve) => {
    const parts: Uint8Array[] = [];
    doc.on("data", (part) => parts.push(part)).on("end", () => resolve(Buffer.concat(parts)));
    doc.end();
  });
}

const rows = (height: number, bytes: number) =>
  Buffer.from(Array.from({ length: height * (1 + bytes) }, (_, i) => (i % (1 + bytes) === 0 ? 1 : (i * 37) % 251)));
const palette = ["PLTE", new Uint8Array([0, 0, 0, 255, 255, 255, 9, 8, 7])] as const;
const indexes = Buffer.from([0, 0, 1, 2, 1, 0, 0, 2, 1, 0, 2, 1]);
/** The picture's data in two parts of the file, an empty one between them. */
const inParts = (() => {
  const whole = png({ width: 5, height: 3, rows: rows(3, 15) });
  const packed = deflateSync(rows(3, 15));
  const half = png({
    width: 5,
    height: 3,
    extra: [
      ["IDAT", packed.subarray(0, 9)],
      ["IDAT", packed.subarray(9, 9)],
    ],
  });
  const rest = png({ width: 5, height: 3, extra: [["IDAT", packed.subarray(9)]] });
  const end = (bytes: Buffer) => bytes.lastIndexOf("IDAT") - 4;
  const start = Buffer.from(whole).indexOf("IDAT") - 4;
  const [front, back] = [Buffer.from(half), Buffer.from(rest)];
  const tail = Buffer.from(whole).subarray(-12);
  return Buffer.concat([front.subarray(0, end(front)), back.subarray(start, end(back)), tail]);
})();

test.each([
  ["colour", png({ width: 5, height: 3, rows: rows(3, 15) })],
  ["colour in parts", inParts],
  ["grey, 16 bits", png({ width: 5, height: 3, colour: 0, bits: 16, rows: rows(3, 10) })],
  [
    "grey, one shade see-through",
    png({ width: 5, height: 3, colour: 0, rows: rows(3, 5), extra: [["tRNS", Buffer.from([0, 9])]] }),
  ],
  [
    "one colour see-through",
    png({ width: 5, height: 3, rows: rows(3, 15), extra: [["tRNS", Buffer.from([0, 9, 0, 8, 0, 7])]] }),
  ],
  ["a table of colours", png({ width: 3, height: 3, colour: 3, rows: indexes, extra: [palette] })],
  [
    "a table of colours, some see-through",
    png({ width: 3, height: 3, colour: 3, rows: indexes, extra: [palette, ["tRNS", Buffer.from([0, 90])]] }),
  ],
  ["see-through", png({ width: 5, height: 3, colour: 6, rows: rows(3, 20) })],
  ["see-through grey, 16 bits", png({ width: 5, height: 3, colour: 4, bits: 16, rows: rows(3, 20) })],
  ["interlaced", png({ width: 8, height: 8, interlaced: 1, rows: Buffer.alloc(64 * 3 + 15) })],
  [
    "with words in it",
    png({ width: 5, height: 3, rows: rows(3, 15), extra: [["tEXt", Buffer.from("Comment\0hello")]] }),
  ],
])(
  "a PNG (%s) stands in the file just as pdfkit puts it there, and pdfkit reads none of its data",
  async (_, bytes) => {
    const stock = await pageWith((doc) => doc.openImage(bytes));
    let given = 0;
    const ours = await pageWith((doc) => {
      const opening = vi.spyOn(doc, "openImage");
      const image = openPicture(doc, bytes);
      given = opening.mock.calls[0]![0].length;
      return image;
    });
    expect(ours.equals(stock)).toBe(true);
    expect(given).toBe(bytes.length - dataIn(bytes));
  },
);

/** Bytes of all IDAT and tEXt chunks, with what frames each. */
function dataIn(bytes: Uint8Array): number {
  const whole = Buffer.from(bytes);
  let sum = 0;
  for (let at = 8; at < whole.length; ) {
    const length = 12 + whole.readUInt32BE(at);
    if (["IDAT", "tEXt"].includes(whole.toString("latin1", at + 4, at + 8))) sum += length;
    at += length;
  }
  return sum;
}
