import fc from "fast-check";
import PDFDocument from "pdfkit";
import { expect, test } from "vitest";
import { serializeObject } from "../../src/pdf/file/serialize-object.ts";

/** What pdfkit itself writes of a value, in a file that holds it in the open. */
async function byPdfkit(value: unknown): Promise<string> {
  const doc = new PDFDocument({ autoFirstPage: false, compress: false, font: null as unknown as string });
  const chunks: Buffer[] = [];
  doc.on("data", (chunk: Buffer) => chunks.push(chunk));
  const ended = new Promise((resolve) => doc.on("end", resolve));
  const held = (doc as unknown as { ref: (data: unknown) => { id: number; end(): void } }).ref(value);
  held.end();
  doc.end();
  await ended;
  const text = Buffer.concat(chunks).toString("latin1");
  return new RegExp(`(?:^|\\n)${held.id} 0 obj\\n([\\s\\S]*?)\\nendobj`).exec(text)![1]!;
}

const key = fc.stringMatching(/^[A-Z][A-Za-z]{0,8}$/);
const { value: anything } = fc.letrec<{ value: unknown }>((tie) => ({
  value: fc.oneof(
    { maxDepth: 3 },
    fc.stringMatching(/^[A-Za-z0-9+#]{1,12}$/),
    fc.string({ unit: "binary", maxLength: 12 }).map((text) => new String(text)),
    fc.double({ noNaN: true, min: -1e6, max: 1e6 }),
    fc.integer(),
    fc.boolean(),
    fc.constant(null),
    fc.date({ noInvalidDate: true, min: new Date("1990-01-01"), max: new Date("2090-01-01") }),
    fc.uint8Array({ maxLength: 16 }),
    fc.array(tie("value"), { maxLength: 4 }),
    fc.dictionary(key, tie("value"), { maxKeys: 4, noNullPrototype: true }),
  ),
}));

test("any value as pdfkit itself writes it", () =>
  fc.assert(
    fc.asyncProperty(fc.dictionary(key, anything, { maxKeys: 4, noNullPrototype: true }), async (value) => {
      expect(serializeObject(value)).toBe(await byPdfkit(value));
    }),
  ));

test("what a page leaves open is not said", () => expect(serializeObject({ A: undefined, B: 1 })).toBe("<<\n/B 1\n>>"));

test.each([Number.NaN, Number.POSITIVE_INFINITY, 1e21])("%d is no number of a file", (value) => {
  expect(() => serializeObject([value])).toThrow(RangeError);
});
