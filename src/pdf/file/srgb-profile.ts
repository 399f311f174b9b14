import { deflateSync } from "node:zlib";
import type { PdfDocument } from "./pdf-document.ts";

/** Declares the document's RGB to be sRGB: an output intent with an embedded profile. */
export function addOutputIntent(doc: PdfDocument): void {
  const profile = doc.ref({ N: 3, Length: 0, Filter: "FlateDecode" });
  profile.end(deflateSync(srgbProfile()));
  const intent = doc.ref({
    Type: "OutputIntent",
    S: "GTS_PDFA1",
    OutputConditionIdentifier: new String("sRGB IEC61966-2.1"),
    Info: new String("sRGB IEC61966-2.1"),
    DestOutputProfile: profile,
  });
  intent.end();
  doc._root.data.OutputIntents = [intent];
}

/**
 * Builds an sRGB ICC profile (ICC.1:2001-04, version 2; sRGB as in IEC 61966-2-1), free of any licence. The primaries are
 * adapted to D50, as the format requires.
 */
export function srgbProfile(): Buffer {
  const curve = Buffer.concat([
    typeHeader("curv"),
    u32(256),
    ...Array.from({ length: 256 }, (_, i) => u16(linearLight(i / 255))),
  ]);
  const tags: readonly (readonly [string, Buffer])[] = [
    ["desc", descriptionTag("sRGB IEC61966-2.1")],
    ["cprt", Buffer.concat([typeHeader("text"), Buffer.from("No rights reserved\0", "latin1")])],
    ["wtpt", xyz(D50)],
    ["rXYZ", xyz([0.43607, 0.22249, 0.01392])],
    ["gXYZ", xyz([0.38515, 0.71687, 0.09708])],
    ["bXYZ", xyz([0.14307, 0.06061, 0.7141])],
    ["rTRC", curve],
    ["gTRC", curve],
    ["bTRC", curve],
  ];
  const table: Buffer[] = [u32(tags.length)];
  const bodies = new Map<Buffer, number>();
  let at = 128 + 4 + 12 * tags.length;
  for (const [signature, body] of tags) {
    // The three channels share one curve.
    const start = bodies.get(body) ?? at;
    if (start === at) at += padToFourBytes(body).length;
    bodies.set(body, start);
    table.push(Buffer.from(signature, "latin1"), u32(start), u32(body.length));
  }
  return Buffer.concat([profileHeader(at), ...table, ...[...bodies.keys()].map(padToFourBytes)]);
}

const D50 = [0.9642, 1, 0.8249] as const;

/** Linear light of an encoded value from 0 to 1 (IEC 61966-2-1, 5.2), scaled to 65535. */
const linearLight = (signal: number) =>
  Math.round(65535 * (signal <= 0.04045 ? signal / 12.92 : ((signal + 0.055) / 1.055) ** 2.4));

function profileHeader(size: number): Buffer {
  const bytes = Buffer.alloc(128);
  bytes.writeUInt32BE(size, 0);
  bytes.writeUInt32BE(0x02100000, 8);
  bytes.write("mntrRGB XYZ ", 12, "latin1");
  // The date of the standard, so that the profile never changes.
  [1999, 10, 1].forEach((part, i) => {
    bytes.writeUInt16BE(part, 24 + 2 * i);
  });
  bytes.write("acsp", 36, "latin1");
  xyz(D50).copy(bytes, 68, 8);
  return bytes;
}

function descriptionTag(text: string): Buffer {
  const ascii = Buffer.from(`${text}\0`, "latin1");
  // After the text: empty Unicode and ScriptCode fields.
  return Buffer.concat([typeHeader("desc"), u32(ascii.length), ascii, Buffer.alloc(4 + 4 + 2 + 1 + 67)]);
}

const typeHeader = (type: string) => Buffer.concat([Buffer.from(type, "latin1"), Buffer.alloc(4)]);
const xyz = (values: readonly [number, number, number]) =>
  Buffer.concat([typeHeader("XYZ "), ...values.map((value) => u32(Math.round(value * 65536)))]);
const padToFourBytes = (bytes: Buffer) => Buffer.concat([bytes, Buffer.alloc((4 - (bytes.length % 4)) % 4)]);

function u32(value: number): Buffer {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32BE(value);
  return bytes;
}
function u16(value: number): Buffer {
  const bytes = Buffer.alloc(2);
  bytes.writeUInt16BE(value);
  return bytes;
}
