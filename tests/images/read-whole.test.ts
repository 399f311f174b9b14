import { expect, test } from "vitest";
import { parseJpegSegments } from "../../src/images/jpeg/segments.ts";
import { checkPicture } from "../../src/project/picture-fault.ts";
import { jpeg, png } from "../project/pictures.ts";
import { jpegOf, pngOf } from "../raster/sample-photos.ts";
import { SOUND_PICTURES } from "./harmed-pictures.ts";
import { JPEG_SAMPLES } from "./jpeg-samples.ts";

const whyOf = (bytes: Uint8Array) => checkPicture(bytes, "p")?.message.replace("`p` cannot be drawn: ", "");

const photo = jpegOf(96, 64, (x, y) => [90 + x + ((x * 31 + y * 17) % 40), 60 + y, 200 - x], 80);
const SEGMENTS = { quantisation: 0xdb, huffman: 0xc4, frame: 0xc0, scan: 0xda } as const;
const placesOf = (marker: number, bytes: Uint8Array) =>
  parseJpegSegments(bytes)
    .filter((one) => one.marker === marker)
    .map((one) => ({ at: one.bytes.byteOffset - bytes.byteOffset, length: one.bytes.length }));
const put = (at: number, ...values: readonly number[]) => {
  const harmed = Uint8Array.from(photo);
  harmed.set(values, at);
  return harmed;
};
const without = (marker: number) => {
  const { at, length } = placesOf(marker, photo)[0]!;
  return Buffer.concat([photo.subarray(0, at), photo.subarray(at + length)]);
};
const frame = placesOf(SEGMENTS.frame, photo)[0]!.at;
const scan = placesOf(SEGMENTS.scan, photo)[0]!;

test("sound pictures of every kind are taken", () => {
  for (const { name, bytes } of [...SOUND_PICTURES, { name: "photo", bytes: photo }])
    expect([name, whyOf(bytes)]).toEqual([name, undefined]);
});

test.each([
  ["a sampling factor of 0", put(frame + 11, 0x01), /^its colours are kept in a way/],
  ["three samples beside two", put(frame + 11, 0x31, 0, 2, 0x21), /^its colours are kept in a way/],
  ["no quantisation table", without(SEGMENTS.quantisation), "its quantisation table is missing"],
  ["no Huffman table", without(SEGMENTS.huffman), "a table of its codes is missing or damaged"],
  // 64 lines are eight rows of blocks; those that the header adds begin at line 65.
  ["fewer lines than its header says", put(frame + 5, 0, 120), "it is damaged from line 65 of 120 on"],
  ["more lines than its header says", put(frame + 5, 0, 40), "it is damaged from line 33 of 40 on"],
  ["arithmetic coding", put(frame + 1, 0xc9), "it is packed in a way that PDF readers do not know"],
  ["no end", photo.subarray(0, photo.length - 2), "it is cut off"],
  [
    "noise in its scan",
    put(scan.at + 900, ...[...photo.subarray(40, 140)].map((byte) => byte & 0xfe)),
    /^it is damaged/,
  ],
])("a JPEG with %s is refused", (_, bytes, why) => expect(whyOf(bytes)).toMatch(why));

test("the end of the data is told by its line, after which nothing is sound", () => {
  const half = Buffer.concat([photo.subarray(0, scan.at + scan.length / 2), new Uint8Array([0xff, 0xd9])]);
  const line = Number(/from line (\d+) of 64/.exec(whyOf(half)!)![1]);
  expect(line).toBeGreaterThan(16);
  expect(line).toBeLessThan(49);
});

test("the scans of a progressive JPEG may not be out of order, nor end before each colour is there", () => {
  const bytes = JPEG_SAMPLES.progressive420;
  const [first, ...later] = placesOf(SEGMENTS.scan, bytes);
  const refined = later.find(({ at }) => bytes[at + 9]! >> 4 > 0)!;
  const swapped = Buffer.concat([
    bytes.subarray(0, first!.at),
    bytes.subarray(refined.at, refined.at + refined.length),
    bytes.subarray(first!.at),
  ]);
  expect(whyOf(swapped)).toBe("it is damaged");
  const grey = jpeg({ width: 8, height: 8 });
  const { at } = placesOf(SEGMENTS.scan, grey)[0]!;
  const oneScan = [0xff, 0xda, 0, 8, 1, 1, 0, 0, 63, 0, 0, 0xff, 0xd9];
  expect(whyOf(Buffer.concat([grey.subarray(0, at), new Uint8Array(oneScan)]))).toBe("a colour of it is missing");
});

test("restart markers stand in their order, one after each interval", () => {
  const bytes = JPEG_SAMPLES.restarts422;
  const at = bytes.findIndex((byte, i) => byte === 0xff && bytes[i + 1] === 0xd2);
  const harmed = Uint8Array.from(bytes);
  harmed[at + 1] = 0xd4;
  expect(whyOf(harmed)).toMatch(/^it is damaged from line/);
});

test.each([
  [
    "a checksum that does not fit",
    pngOf(9, 9, () => [9, 8, 7]).map((byte, at) => (at === 45 ? byte ^ 1 : byte)),
    "it is damaged",
  ],
  [
    "transparency of the wrong length",
    png({ width: 5, height: 3, extra: [["tRNS", new Uint8Array(5)]] }),
    "its transparency is damaged",
  ],
  [
    "two tables of colours",
    png({
      width: 5,
      height: 3,
      extra: [
        ["PLTE", new Uint8Array(3)],
        ["PLTE", new Uint8Array(3)],
      ],
    }),
    "its table of colours is damaged",
  ],
  [
    "a chunk that all must know, and none does",
    png({ width: 5, height: 3, extra: [["QQQQ", new Uint8Array(3)]] }),
    "it is of a kind that does not exist",
  ],
])("a PNG with %s is refused", (_, bytes, why) => expect(whyOf(bytes)).toBe(why));
