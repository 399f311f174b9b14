import { inflateSync } from "node:zlib";

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

/** Yields the chunks of a PNG up to the first that is cut off. */
function* readPngChunks(bytes: Uint8Array): Generator<PngChunk> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = SIGNATURE.length; at + 12 <= bytes.length; ) {
    const end = at + 12 + view.getUint32(at);
    if (end > bytes.length) return;
    const type = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    yield { type, body: bytes.subarray(at + 8, end - 4), whole: bytes.subarray(at, end) };
    at = end;
  }
}

export const isPng = (bytes: Uint8Array): boolean => SIGNATURE.every((byte, index) => bytes[index] === byte);

/** Parses the chunks of a PNG without inflating its data; undefined when the bytes are no PNG. */
export function parsePngHeader(bytes: Uint8Array): PngHeader | { readonly broken: string } | undefined {
  if (!isPng(bytes)) return undefined;
  let header: Omit<PngHeader, "compressed"> | undefined;
  let wantsPalette = false;
  const compressed: Uint8Array[] = [];
  for (const { type, body } of readPngChunks(bytes)) {
    if (!header) {
      if (type !== "IHDR" || body.length !== 13) return { broken: "it does not say its size" };
      const read = parseImageHeader(body);
      if ("broken" in read) return read;
      header = read;
      wantsPalette = body[9] === PALETTE;
    } else if (type === "PLTE") {
      if (body.length === 0 || body.length % 3 !== 0 || body.length > 768)
        return { broken: "its table of colours is damaged" };
      wantsPalette = false;
    } else if (type === "IDAT") compressed.push(body);
    else if (type === "IEND") {
      if (wantsPalette) return { broken: "its table of colours is missing" };
      return compressed.length === 0 ? { broken: "there is no picture in it" } : { ...header, compressed };
    }
  }
  return { broken: "it is cut off" };
}

/** Splits a PNG into a PNG of the chunks that describe the image, and the compressed image data. */
export function splitPng(bytes: Uint8Array): { readonly description: Uint8Array; readonly compressed: Uint8Array } {
  const chunks = [...readPngChunks(bytes)];
  const descriptive = chunks.filter(({ type }) => DESCRIPTIVE_CHUNKS.includes(type)).map(({ whole }) => whole);
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
    return { broken: "it is of a kind that does not exist" };
  if (width === 0 || height === 0) return { broken: "it does not say its size" };
  const across = (pixels: number) => 1 + Math.ceil((pixels * known.channels * (bits as number)) / 8);
  const passes = interlaced === 1 ? PASSES : ([[0, 0, 1, 1]] as const);
  const rows = passes.flatMap(([left, top, right, down]) => {
    const [columns, count] = [Math.ceil((width - left) / right), Math.ceil((height - top) / down)];
    return columns > 0 && count > 0 ? [{ bytes: across(columns), count }] : [];
  });
  return { width, height, rows, unpacked: rows.reduce((sum, { bytes, count }) => sum + bytes * count, 0) };
}

/** Inflates a PNG's data and compares it with the header; returns the reason when the data is damaged, short or too long. */
export function findPngFault({ rows, unpacked, compressed }: PngHeader): string | undefined {
  let data: Uint8Array;
  try {
    // One output chunk: otherwise the chunks and their concatenation would be in memory together.
    data = inflateSync(Buffer.concat(compressed), { maxOutputLength: unpacked, chunkSize: Math.max(unpacked + 1, 64) });
  } catch (failure) {
    return (failure as NodeJS.ErrnoException).code === "ERR_BUFFER_TOO_LARGE"
      ? "there is more in it than it says"
      : "it is damaged";
  }
  if (data.length < unpacked) return "it is cut off";
  let at = 0;
  for (const { bytes, count } of rows)
    for (let row = 0; row < count; row++, at += bytes) if ((data[at] as number) > 4) return "it is damaged";
  return undefined;
}
