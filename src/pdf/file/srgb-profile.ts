/**
 * The colours of this file, told: an ICC profile (ICC.1:2001-04, version 2) of sRGB as IEC 61966-2-1 defines it, made here so
 * that it carries nobody's licence. Primaries are adapted to D50, as the format wants them.
 */
export function srgbProfile(): Buffer {
  const curve = Buffer.concat([
    tagHead("curv"),
    u32(256),
    ...Array.from({ length: 256 }, (_, i) => u16(linear(i / 255))),
  ]);
  const tags: readonly (readonly [string, Buffer])[] = [
    ["desc", description("sRGB IEC61966-2.1")],
    ["cprt", Buffer.concat([tagHead("text"), Buffer.from("No rights reserved\0", "latin1")])],
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
    // The three curves are one.
    const start = bodies.get(body) ?? at;
    if (start === at) at += padded(body).length;
    bodies.set(body, start);
    table.push(Buffer.from(signature, "latin1"), u32(start), u32(body.length));
  }
  return Buffer.concat([head(at), ...table, ...[...bodies.keys()].map(padded)]);
}

const D50 = [0.9642, 1, 0.8249] as const;

/** A share of full signal as a share of full light (IEC 61966-2-1, 5.2), in 65535ths. */
const linear = (signal: number) =>
  Math.round(65535 * (signal <= 0.04045 ? signal / 12.92 : ((signal + 0.055) / 1.055) ** 2.4));

function head(size: number): Buffer {
  const bytes = Buffer.alloc(128);
  bytes.writeUInt32BE(size, 0);
  bytes.writeUInt32BE(0x02100000, 8);
  bytes.write("mntrRGB XYZ ", 12, "latin1");
  // The day of the standard, so that the same profile comes out on any day.
  [1999, 10, 1].forEach((part, i) => {
    bytes.writeUInt16BE(part, 24 + 2 * i);
  });
  bytes.write("acsp", 36, "latin1");
  xyz(D50).copy(bytes, 68, 8);
  return bytes;
}

function description(words: string): Buffer {
  const ascii = Buffer.from(`${words}\0`, "latin1");
  // After the words: no Unicode, no script code.
  return Buffer.concat([tagHead("desc"), u32(ascii.length), ascii, Buffer.alloc(4 + 4 + 2 + 1 + 67)]);
}

const tagHead = (type: string) => Buffer.concat([Buffer.from(type, "latin1"), Buffer.alloc(4)]);
const xyz = (values: readonly [number, number, number]) =>
  Buffer.concat([tagHead("XYZ "), ...values.map((value) => u32(Math.round(value * 65536)))]);
const padded = (bytes: Buffer) => Buffer.concat([bytes, Buffer.alloc((4 - (bytes.length % 4)) % 4)]);

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
