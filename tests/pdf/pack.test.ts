import { beforeAll, describe, expect, test } from "vitest";
import { pack } from "../../src/pdf/pack.ts";
import { type PdfFile, readPdf, writePdf } from "../conformance/pdf-file.ts";
import { isKind } from "../conformance/values.ts";
import { dummySheet } from "../layout/dummy-sheet.ts";
import { pagesOf, paintPages } from "./a-pdf.ts";

let file: PdfFile;
let plain: Buffer;
beforeAll(async () => {
  file = readPdf(await paintPages(pagesOf(dummySheet())));
  plain = writePdf(file);
});

describe("packing", () => {
  test("keeps every object and what the trailer says", () => {
    const packed = readPdf(pack(plain));
    expect(packed.faults).toEqual([]);
    expect([...packed.objects].toSorted(([a], [b]) => a - b)).toEqual([...file.objects].toSorted(([a], [b]) => a - b));
    for (const key of ["Root", "Info", "ID"])
      expect(packed.trailer.entries.get(key)).toEqual(file.trailer.entries.get(key));
  });
  test("leaves streams as they stand, and makes a tagged sheet a good deal smaller", () => {
    const streams = [...file.objects.values()].filter((value) => isKind(value, "stream"));
    const packed = pack(plain);
    for (const stream of streams) expect(packed.includes(stream.data)).toBe(true);
    expect(packed.length).toBeLessThan(0.7 * plain.length);
  });
  test("the same bytes each time", () => expect(pack(plain).equals(pack(plain))).toBe(true));
  test("a file that does not end as pdfkit ends one is our own fault", () => {
    expect(() => pack(Buffer.from("%PDF-1.7\n"))).toThrow(/cross-reference/);
  });
});
