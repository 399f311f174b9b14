import { describe, expect, test } from "vitest";
import { stripMetadata } from "../../src/images/strip-metadata.ts";
import { jpeg, png } from "../project/pictures.ts";

const segment = (code: number, text: string, body: readonly number[] = []) => {
  const bytes = [...[...text].map((letter) => letter.charCodeAt(0)), ...body];
  return [0xff, code, (bytes.length + 2) >> 8, (bytes.length + 2) & 255, ...bytes];
};
/** Exif with its orientation and a place (CIPA DC-008: tag 0x0112 of IFD0), either byte order. */
const exif = (value: number, little: boolean) => {
  const two = (n: number) => (little ? [n & 255, n >> 8] : [n >> 8, n & 255]);
  const four = (n: number) => (little ? [...two(n), 0, 0] : [0, 0, ...two(n)]);
  const order = little ? [0x49, 0x49] : [0x4d, 0x4d];
  const entry = [...two(0x0112), ...two(3), ...four(1), ...two(value), 0, 0];
  const place = [...two(0x8825), ...two(4), ...four(1), ...four(26)];
  return segment(0xe1, "Exif\0\0", [
    ...order,
    ...two(42),
    ...four(8),
    ...two(2),
    ...place,
    ...entry,
    ...four(0),
    ...[..."GPS 54.1N"].map((c) => c.charCodeAt(0)),
  ]);
};
const plain = jpeg({ width: 8, height: 6 });
const carrying = (...extra: readonly number[][]) =>
  new Uint8Array([...plain.slice(0, 2), ...extra.flat(), ...plain.slice(2)]);
const text = (bytes: Uint8Array) => Buffer.from(bytes).toString("latin1");

describe("a photo leaves its notes behind", () => {
  test.each([
    ["a place in Exif", exif(1, true), "GPS"],
    ["XMP", segment(0xe1, "http://ns.adobe.com/xap/1.0/\0<x>Ovenby</x>"), "Ovenby"],
    ["a maker's segment", segment(0xed, "Photoshop 3.0\0by Ann"), "Ann"],
    ["a thumbnail", segment(0xe0, "JFXX\0thumb"), "thumb"],
    ["a comment", segment(0xfe, "at the bench"), "bench"],
  ])("%s", (_, extra, secret) => {
    const full = carrying(extra);
    expect(text(full)).toContain(secret);
    expect(Buffer.from(stripMetadata(full)).equals(Buffer.from(plain))).toBe(true);
  });

  test("what stands behind the picture", () => {
    expect(text(stripMetadata(new Uint8Array([...plain, ...Buffer.from("second picture")])))).toBe(text(plain));
  });
});

describe("what drawing needs stays", () => {
  test.each([1, 2, 3, 4, 5, 6, 7, 8])("orientation %i, in either byte order", (value) => {
    const [a, b] = [true, false].map((little) => text(stripMetadata(carrying(exif(value, little)))));
    expect(a).toBe(b);
    expect(a).not.toContain("GPS");
    expect(a!.includes(`\x01\x12\0\x03\0\0\0\x01\0${String.fromCharCode(value)}`)).toBe(value > 1);
  });
  test("colour profile and colour transform", () => {
    const full = carrying(segment(0xe2, "ICC_PROFILE\0profile"), segment(0xee, "Adobe\0transform"));
    expect(text(stripMetadata(full))).toBe(text(full));
  });
  test("a picture without notes, and a PNG, are the same bytes", () => {
    expect(text(stripMetadata(plain))).toBe(text(plain));
    const other = png({ width: 2, height: 2 });
    expect(stripMetadata(other)).toBe(other);
  });
  test("broken segments end it without harm", () => {
    for (let length = 0; length < 60; length++)
      expect(() => stripMetadata(carrying(exif(6, true)).slice(0, length))).not.toThrow();
  });
});
