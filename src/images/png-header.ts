import { inflateSync } from "node:zlib";
import { crc32 } from "../util/crc32.ts";

/** A parsed PNG header; `rows` groups the scanlines of each pass by length, the filter byte included. */
type PngHeader = {
  readonly width: number;
  readonly height: number;
  readonly rows: readonly { readonly bytes: number; readonly count: number }[];
  /** Bytes of all rows. */
  readonly unpacked: number;
  /** Bodies of the IDAT chunks. */
  readonly compressed: readonly Uint8Array[];
};

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
/** Channels of each colour type, and the permitted bit depths (ISO/IEC 15948, table 11.1). */
const COLOURS: Readonly<Record<number, { readonly channels: number; readonly bits: readonly number[] }>> = {
  0: { channels: 1, bits: [1, 2, 4, 8, 16] },
  2: { channels: 3, bits: [8, 16] },
  3: { channels: 1, bits: [1, 2, 4, 8] },
  4: { channels: 2, bits: [8, 16] },
  6: { channels: 4, bits: [8, 16] },
};
const PALETTE = 3;
/** The seven passes of Adam7 interlacing: first column and row, then column and row steps (ISO/IEC 15948, 8.2). */
const PASSES = [
  [0, 0, 8, 8],
  [4, 0, 8, 8],
  [0, 4, 4, 8],
  [2, 0, 4, 4],
  [0, 2, 2, 4],
  [1, 0, 2, 2],
  [0, 1, 1, 2],
] as const;

/** A chunk of a PNG: `body` is its data, `whole` includes length, type and CRC. */
type PngChunk = { readonly type: string; readonly body: Uint8Array; readonly whole: Uint8Array };

/** Whether a chunk that describes or holds the image has the checksum of its content; the others never reach the page. */
const isSound = ({ type, whole }: PngChunk): boolean => {
  if (type !== "IDAT" && !DESCRIPTIVE_CHUNKS.includes(type)) return true;
  const end = whole.length - 4;
  return new DataView(whole.buffer, whole.byteOffset + end, 4).getUint32(0) === crc32(whole.subarray(4, end));
};

/** Yields the chunks of a PNG up to its end, or to the first that is cut off. */
function* readPngChunks(bytes: Uint8Array): Generator<PngChunk> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = SIGNATURE.length; at + 12 <= bytes.length; ) {
    const end = at + 12 + view.getUint32(at);
    if (end > bytes.length) return;
    const type = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    yield { type, body: bytes.subarray(at + 8, end - 4), whole: bytes.subarray(at, end) };
    if (type === "IEND") return;
    at = end;
  }
}

export const isPng = (bytes: Uint8Array): boolean => SIGNATURE.every((byte, index) => bytes[index] === byte);

/** Parses the chunks of a PNG without inflating its data; undefined when the bytes are no PNG. */
export function parsePngHeader(bytes: Uint8Array): PngHeader | { readonly broken: string } | undefined {
  if (!isPng(bytes)) return undefined;
  const chunks = [...readPngChunks(bytes)];
  const [first, ...others] = chunks;
  if (first?.type !== "IHDR" || first.body.length !== 13)
    return { broken: first ? "it does not say its size" : CUT_OFF };
  const header = parseImageHeader(first.body);
  if ("broken" in header) return header;
  if (others.at(-1)?.type !== "IEND") return { broken: CUT_OFF };
  const broken = findChunkFault(others, first.body);
  if (broken !== undefined) return { broken };
  return { ...header, compressed: others.filter(({ type }) => type === "IDAT").map(({ body }) => body) };
}

/** Checks which chunks there are, and the tables of colours and of transparency (ISO/IEC 15948, 5.6 and 11.3.2.1). */
function findChunkFault(chunks: readonly PngChunk[], header: Uint8Array): string | undefined {
  const [bits, colour] = [header[8]!, header[9]!];
  const all = (name: string) => chunks.filter(({ type }) => type === name).map(({ body }) => body.length);
  const [palettes, transparencies] = [all("PLTE"), all("tRNS")];
  const [palette = 0] = palettes;
  if (all("IHDR").length > 0) return "it says its size twice";
  if (chunks.some(({ type }) => /^[A-Z]/.test(type) && !CRITICAL_CHUNKS.includes(type))) return NO_KIND;
  if (colour === PALETTE && palettes.length === 0) return "its table of colours is missing";
  const most = colour === PALETTE ? 3 << bits : 3 << 8;
  if (palettes.length > 1 || palettes.some((length) => length === 0 || length % 3 !== 0 || length > most))
    return "its table of colours is damaged";
  const fits = (length: number) =>
    colour === PALETTE ? length > 0 && length <= palette / 3 : length === TRANSPARENCY_BYTES[colour];
  if (transparencies.length > 1 || !transparencies.every(fits)) return "its transparency is damaged";
  return all("IDAT").length === 0 ? "there is no picture in it" : undefined;
}

const CUT_OFF = "it is cut off";
const DAMAGED = "it is damaged";
const NO_KIND = "it is of a kind that does not exist";
const CRITICAL_CHUNKS = ["PLTE", "IDAT", "IEND"];
/** Length of a tRNS chunk beside a table of colours, by colour type; other types have none. */
const TRANSPARENCY_BYTES: Readonly<Record<number, number>> = { 0: 2, 2: 6 };

/** Splits a PNG into a PNG of the chunks that describe the image, and the compressed image data. */
export function splitPng(bytes: Uint8Array): { readonly description: Uint8Array; readonly compressed: Uint8Array } {
  const chunks = [...readPngChunks(bytes)];
  const hasPalette = chunks[0]?.body[9] === PALETTE;
  // Beside other colour types a table of colours is only a suggestion, which pdfkit would take for the colours themselves.
  const descriptive = chunks
    .filter(({ type }) => DESCRIPTIVE_CHUNKS.includes(type) && (hasPalette || type !== "PLTE"))
    .map(({ whole }) => whole);
  const data = chunks.filter(({ type }) => type === "IDAT").map(({ body }) => body);
  return { description: Buffer.concat([Uint8Array.from(SIGNATURE), ...descriptive]), compressed: Buffer.concat(data) };
}

/** Chunks needed to draw the image, beside its data. */
const DESCRIPTIVE_CHUNKS = ["IHDR", "PLTE", "tRNS", "IEND"];

function parseImageHeader(body: Uint8Array): Omit<PngHeader, "compressed"> | { readonly broken: string } {
  const view = new DataView(body.buffer, body.byteOffset, body.byteLength);
  const [width, height] = [view.getUint32(0), view.getUint32(4)];
  const [bits, colour, packing, filtering, interlaced] = body.subarray(8);
  const known = COLOURS[colour as number];
  if (!known?.bits.includes(bits as number) || packing !== 0 || filtering !== 0 || (interlaced as number) > 1)
    return { broken: NO_KIND };
  if (width === 0 || height === 0) return { broken: "it does not say its size" };
  const bytesPerRow = (pixels: number) => 1 + Math.ceil((pixels * known.channels * (bits as number)) / 8);
  const passes = interlaced === 1 ? PASSES : ([[0, 0, 1, 1]] as const);
  const rows = passes.flatMap(([left, top, right, down]) => {
    const [columns, count] = [Math.ceil((width - left) / right), Math.ceil((height - top) / down)];
    return columns > 0 && count > 0 ? [{ bytes: bytesPerRow(columns), count }] : [];
  });
  return { width, height, rows, unpacked: rows.reduce((sum, { bytes, count }) => sum + bytes * count, 0) };
}

/**
 * Checks the checksums of a PNG, inflates its data and compares it with the header; returns the reason when the data is damaged,
 * short or too long.
 */
export function findPngFault(bytes: Uint8Array, { rows, unpacked, compressed }: PngHeader): string | undefined {
  for (const chunk of readPngChunks(bytes)) if (!isSound(chunk)) return DAMAGED;
  let data: Uint8Array;
  try {
    // One output chunk: otherwise the chunks and their concatenation would be in memory together.
    data = inflateSync(Buffer.concat(compressed), { maxOutputLength: unpacked, chunkSize: Math.max(unpacked + 1, 64) });
  } catch (failure) {
    return (failure as NodeJS.ErrnoException).code === "ERR_BUFFER_TOO_LARGE"
      ? "there is more in it than it says"
      : DAMAGED;
  }
  if (data.length < unpacked) return CUT_OFF;
  let at = 0;
  for (const { bytes: length, count } of rows)
    for (let row = 0; row < count; row++, at += length) if ((data[at] as number) > 4) return DAMAGED;
  return undefined;
}
