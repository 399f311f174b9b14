import { deflateSync, inflateSync } from "node:zlib";
import { parseJpegSegments } from "../../src/images/jpeg/segments.ts";
import { crc32 } from "../../src/util/crc32.ts";
import { createRandom, type Random } from "../claims/random.ts";
import { png } from "../project/pictures.ts";
import { jpegOf, pngOf } from "../raster/sample-photos.ts";
import { JPEG_SAMPLES } from "./jpeg-samples.ts";

/** A picture with a harm, and a name that says which. */
export type Harmed = { readonly name: string; readonly bytes: Uint8Array };

type Harm = (bytes: Uint8Array, random: Random) => Uint8Array;

const below = (random: Random, most: number) => Math.floor(random.uniform(0, most));
const choose = <T>(random: Random, all: readonly T[]): T => all[below(random, all.length)]!;
const cut = (bytes: Uint8Array, from: number, to: number, ...put: readonly number[]) =>
  Buffer.concat([bytes.subarray(0, from), new Uint8Array(put), bytes.subarray(to)]);
const change = (bytes: Uint8Array, at: number, value: number) => cut(bytes, at, at + 1, value & 255);

/** Offset and length of the segments with one of these markers. */
function placesOf(bytes: Uint8Array, ...markers: readonly number[]) {
  return parseJpegSegments(bytes).flatMap(({ marker, bytes: { byteOffset, length } }) =>
    markers.includes(marker) ? [{ at: byteOffset - bytes.byteOffset, length }] : [],
  );
}
const [SCAN, QUANTISATION, HUFFMAN, FRAMES] = [0xda, 0xdb, 0xc4, [0xc0, 0xc1, 0xc2]] as const;
/** A place among the data of a scan. */
function inScan(bytes: Uint8Array, random: Random): number {
  const { at, length } = choose(random, placesOf(bytes, SCAN));
  const head = 2 + ((bytes[at + 2]! << 8) | bytes[at + 3]!);
  return at + head + below(random, length - head);
}
const inFrame =
  (offset: number, value: (random: Random, old: number) => number): Harm =>
  (bytes, random) => {
    const at = placesOf(bytes, ...FRAMES)[0]!.at + offset;
    return change(bytes, at, value(random, bytes[at]!));
  };
const without =
  (...markers: readonly number[]): Harm =>
  (bytes, random) => {
    const { at, length } = choose(random, placesOf(bytes, ...markers));
    return cut(bytes, at, at + length);
  };
const anywhere = (random: Random, old: number) => old ^ (1 + below(random, 255));

const JPEG_HARMS: Readonly<Record<string, Harm>> = {
  "a bit turned in a scan": (bytes, random) => {
    const at = inScan(bytes, random);
    return change(bytes, at, bytes[at]! ^ (1 << below(random, 8)));
  },
  "noise over a stretch of a scan": (bytes, random) => {
    const from = inScan(bytes, random);
    const noise = Array.from({ length: 4 + below(random, 60) }, () => below(random, 255));
    return cut(bytes, from, Math.min(bytes.length - 2, from + noise.length), ...noise);
  },
  "bytes of a scan lost": (bytes, random) => {
    const from = inScan(bytes, random);
    return cut(bytes, from, Math.min(bytes.length - 2, from + 1 + below(random, 20)));
  },
  "bytes put into a scan": (bytes, random) => {
    const from = inScan(bytes, random);
    return cut(bytes, from, from, ...Array.from({ length: 1 + below(random, 9) }, () => below(random, 255)));
  },
  "cut off": (bytes, random) => bytes.subarray(0, inScan(bytes, random)),
  "cut off, and ended": (bytes, random) => cut(bytes, inScan(bytes, random), bytes.length, 0xff, 0xd9),
  "a sampling factor of 0": inFrame(11, (random, old) => old & choose(random, [0x0f, 0xf0])),
  "another sampling factor": inFrame(11, anywhere),
  "more lines than there are": inFrame(6, (random, old) => old + 8 + below(random, 100)),
  "other lines": inFrame(6, anywhere),
  "another width": inFrame(8, anywhere),
  "another coding": inFrame(1, (random) => choose(random, [0xc0, 0xc1, 0xc2, 0xc3, 0xc5, 0xc9, 0xca])),
  "another quantisation table": inFrame(12, anywhere),
  "no quantisation table": without(QUANTISATION),
  "no Huffman table": without(HUFFMAN),
  "a scan lost": without(SCAN),
  "a scan twice": (bytes, random) => {
    const { at, length } = choose(random, placesOf(bytes, SCAN));
    return cut(bytes, at, at, ...bytes.subarray(at, at + length));
  },
  "a byte of a Huffman table": (bytes, random) => {
    const { at, length } = choose(random, placesOf(bytes, HUFFMAN));
    const place = at + 4 + below(random, length - 4);
    return change(bytes, place, anywhere(random, bytes[place]!));
  },
  "a byte of the head of a scan": (bytes, random) => {
    const { at } = choose(random, placesOf(bytes, SCAN));
    const place = at + 2 + below(random, 8);
    return change(bytes, place, anywhere(random, bytes[place]!));
  },
  "any byte": (bytes, random) => {
    const at = 2 + below(random, bytes.length - 4);
    return change(bytes, at, anywhere(random, bytes[at]!));
  },
};

type Chunk = { readonly type: string; readonly body: Uint8Array };

function chunksOf(bytes: Uint8Array): readonly Chunk[] {
  const whole = Buffer.from(bytes);
  const chunks: Chunk[] = [];
  for (let at = 8; at < whole.length; at += 12 + whole.readUInt32BE(at))
    chunks.push({
      type: whole.toString("latin1", at + 4, at + 8),
      body: whole.subarray(at + 8, at + 8 + whole.readUInt32BE(at)),
    });
  return chunks;
}

/** Chunks with the checksums of their content, so that a harm is found by what it is. */
const joinChunks = (bytes: Uint8Array, chunks: readonly Chunk[]) =>
  Buffer.concat([
    bytes.subarray(0, 8),
    ...chunks.flatMap(({ type, body }) => {
      const named = Buffer.concat([Buffer.from(type, "latin1"), body]);
      const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
      length.writeUInt32BE(body.length);
      sum.writeUInt32BE(crc32(named));
      return [length, named, sum];
    }),
  ]);
const inChunk =
  (wanted: string, harm: (body: Uint8Array, random: Random) => readonly Uint8Array[]): Harm =>
  (bytes, random) =>
    joinChunks(
      bytes,
      chunksOf(bytes).flatMap(({ type, body }) =>
        type === wanted ? harm(body, random).map((one) => ({ type, body: one })) : [{ type, body }],
      ),
    );
const anyByte = (body: Uint8Array, random: Random) => {
  const at = below(random, body.length);
  return [body.length === 0 ? body : change(body, at, anywhere(random, body[at]!))];
};

const PNG_HARMS: Readonly<Record<string, Harm>> = {
  "any byte": (bytes, random) => anyByte(bytes, random)[0]!,
  "cut off": (bytes, random) => bytes.subarray(0, 8 + below(random, bytes.length - 8)),
  "a byte of the head": inChunk("IHDR", anyByte),
  "a byte of the data": inChunk("IDAT", anyByte),
  "a byte before packing": inChunk("IDAT", (body, random) => [deflateSync(anyByte(inflateSync(body), random)[0]!)]),
  "rows lost": inChunk("IDAT", (body, random) => {
    const rows = inflateSync(body);
    return [deflateSync(rows.subarray(0, below(random, rows.length)))];
  }),
  "data cut off": inChunk("IDAT", (body, random) => [body.subarray(0, below(random, body.length))]),
  "more behind the data": inChunk("IDAT", (body, random) => [
    Buffer.concat([body, Buffer.alloc(1 + below(random, 20), below(random, 255))]),
  ]),
  "no data": inChunk("IDAT", () => []),
  "a table of colours lost": inChunk("PLTE", () => []),
  "a table of colours too short": inChunk("PLTE", (body, random) => [body.subarray(0, 3 * below(random, 3))]),
  "a table of colours out of step": inChunk("PLTE", (body) => [body.subarray(1)]),
  "transparency of another length": inChunk("tRNS", (body, random) => [
    Buffer.concat([body, Buffer.alloc(below(random, 9))]).subarray(below(random, 3)),
  ]),
  "the head twice": inChunk("IHDR", (body) => [body, body]),
};

const grain = (x: number, y: number) => ((x * 7919 + y * 104_729 + x * y * 31) % 61) - 30;
const slope = (x: number, y: number) => [120 + x + grain(x, y), 90 + y + grain(y, x), 160 - x] as const;
const rows = (height: number, bytes: number) =>
  Buffer.from(Array.from({ length: height * (1 + bytes) }, (_, i) => (i % (1 + bytes) === 0 ? i % 5 : (i * 37) % 251)));
const COLOURS = ["PLTE", Buffer.from(Array.from({ length: 48 }, (_, i) => (i * 53) % 256))] as const;
const SEE_THROUGH = ["tRNS", Buffer.from([0, 90, 200])] as const;

const SOUND_JPEGS: readonly Harmed[] = [
  { name: "baseline", bytes: jpegOf(88, 60, slope, 80) },
  ...Object.entries(JPEG_SAMPLES).map(([name, bytes]) => ({ name, bytes })),
];

const SOUND_PNGS: readonly Harmed[] = [
  { name: "RGBA", bytes: pngOf(40, 30, slope) },
  { name: "RGB", bytes: png({ width: 40, height: 30, rows: rows(30, 120) }) },
  { name: "grey, 16 bits", bytes: png({ width: 40, height: 30, colour: 0, bits: 16, rows: rows(30, 80) }) },
  { name: "grey, 1 bit", bytes: png({ width: 40, height: 30, colour: 0, bits: 1, rows: rows(30, 5) }) },
  { name: "grey and see-through", bytes: png({ width: 40, height: 30, colour: 4, rows: rows(30, 80) }) },
  {
    name: "a table of colours",
    bytes: png({ width: 40, height: 30, colour: 3, bits: 4, rows: rows(30, 20), extra: [COLOURS] }),
  },
  {
    name: "a table of colours, some see-through",
    bytes: png({ width: 40, height: 30, colour: 3, bits: 4, rows: rows(30, 20), extra: [COLOURS, SEE_THROUGH] }),
  },
  {
    name: "RGB, one colour see-through",
    bytes: png({ width: 40, height: 30, rows: rows(30, 120), extra: [["tRNS", Buffer.from([0, 9, 0, 8, 0, 7])]] }),
  },
  {
    name: "interlaced",
    bytes: png({ width: 8, height: 8, interlaced: 1, rows: Buffer.alloc(64 * 3 + 15).map((_, i) => (i < 4 ? 0 : 3)) }),
  },
];

export const SOUND_PICTURES: readonly Harmed[] = [...SOUND_JPEGS, ...SOUND_PNGS];

/** So many harmed pictures, the same from the same seed: JPEG and PNG by turns, each harm in its turn. */
export function harmedPictures(count: number, seed: number): readonly Harmed[] {
  const random = createRandom(seed);
  return Array.from({ length: count }, (_, n) => {
    const [sound, harms] = n % 2 === 0 ? [SOUND_JPEGS, JPEG_HARMS] : [SOUND_PNGS, PNG_HARMS];
    const names = Object.keys(harms);
    const harm = names[Math.floor(n / 2) % names.length]!;
    for (;;) {
      const one = choose(random, sound);
      const bytes = new Uint8Array(harms[harm]!(one.bytes, random));
      if (Buffer.compare(bytes, one.bytes) !== 0) return { name: `${n}: ${one.name}, ${harm}`, bytes };
    }
  });
}
