import { describe, expect, test } from "vitest";
import { createObjectStreamWriter } from "../../src/pdf/file/object-stream-writer.ts";
import { readPdf, writePdf } from "../conformance/pdf-file.ts";
import { dict, isKind, name, ref } from "../conformance/values.ts";
import { dummySheet } from "../layout/dummy-sheet.ts";
import { pagesOf, paintPages } from "./a-pdf.ts";

describe("packing", () => {
  test("every object is found again, streams as they stand, with what the trailer says", () => {
    const file = createObjectStreamWriter("1.7");
    file.add(2, "<<\n/Type /Pages\n>>");
    file.add(5, "<<\n/Length 4\n>>", Buffer.from([1, 10, 255, 13]));
    file.add(1, "<<\n/Type /Catalog\n/Pages 2 0 R\n>>");
    const { faults, objects, trailer } = readPdf(file.end("/Root 1 0 R"));
    expect(faults).toEqual([]);
    expect(objects.get(1)).toEqual(dict({ Type: name("Catalog"), Pages: ref(2) }));
    expect(objects.get(2)).toEqual(dict({ Type: name("Pages") }));
    const stream = objects.get(5);
    expect(isKind(stream, "stream") && [...stream.data]).toEqual([1, 10, 255, 13]);
    expect(objects.size).toBe(3);
    expect(trailer.entries.get("Root")).toEqual(ref(1));
  });
  test("makes a tagged sheet a good deal smaller", async () => {
    const bytes = await paintPages(pagesOf(dummySheet()));
    const file = readPdf(bytes);
    expect(file.faults).toEqual([]);
    const plain = writePdf(file);
    expect(readPdf(plain).objects.size).toBe(file.objects.size);
    expect(bytes.length).toBeLessThan(0.7 * plain.length);
  });
  test("more objects than two bytes can count", () => {
    const many = 0x1_0001;
    const file = createObjectStreamWriter("1.7");
    for (let number = 1; number <= many; number++) file.add(number, `${2 * number}`);
    const { faults, objects } = readPdf(file.end("/Root 1 0 R"));
    expect(faults).toEqual([]);
    expect([objects.size, objects.get(1), objects.get(many)]).toEqual([many, 2, 2 * many]);
  });
});
