import { inflateSync } from "node:zlib";

/** What a PNG says of itself; `rows` are the lengths of its lines in order, each with its filter's byte. */
export type PngHeader = {
  readonly width: number;
  readonly height: number;
  readonly rows: readonly { readonly bytes: number; readonly count: number }[];
  /** Bytes of all rows. */
  readonly unpacked: number;
  readonly packed: readonly Uint8Array[];
};

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
/** Colour types: channels, and the bits that a channel may have (ISO/IEC 15948, table 11.1). */
const COLOURS: Readonly<Record<number, { readonly channels: number; readonly bits: readonly number[] }>> = {
  0: { channels: 1, bits: [1, 2, 4, 8, 16] },
  2: { channels: 3, bits: [8, 16] },
  3: { channels: 1, bits: [1, 2, 4, 8] },
  4: { channels: 2, bits: [8, 16] },
  6: { channels: 4, bits: [8, 16] },
};
const PALETTE = 3;
/** The seven passes of an interlaced picture: first column and row, and steps (ISO/IEC 15948, 8.2). */
const PASSES = [
  [0, 0, 8, 8],
  [4, 0, 8, 8],
  [0, 4, 4, 8],
  [2, 0, 4, 4],
  [0, 2, 2, 4],
  [1, 0, 2, 2],
  [0, 1, 1, 2],
] as const;

/** A part of a PNG: `body` is what it says, `whole` has its length, its name and its sum with it. */
type PngChunk = { readonly type: string; readonly body: Uint8Array; readonly whole: Uint8Array };

/** The parts of a PNG as far as they are whole. */
function* pngChunks(bytes: Uint8Array): Generator<PngChunk> {
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

/** The header of a PNG, nothing unpacked; undefined when it is none. */
export function pngHeader(bytes: Uint8Array): PngHeader | { readonly broken: string } | undefined {
  if (!isPng(bytes)) return undefined;
  let header: Omit<PngHeader, "packed"> | undefined;
  let wantsPalette = false;
  const packed: Uint8Array[] = [];
  for (const { type, body } of pngChunks(bytes)) {
    if (!header) {
      if (type !== "IHDR" || body.length !== 13) return { broken: "it does not say its size" };
      const read = sizes(body);
      if ("broken" in read) return read;
      header = read;
      wantsPalette = body[9] === PALETTE;
    } else if (type === "PLTE") {
      if (body.length === 0 || body.length % 3 !== 0 || body.length > 768)
        return { broken: "its table of colours is damaged" };
      wantsPalette = false;
    } else if (type === "IDAT") packed.push(body);
    else if (type === "IEND") {
      if (wantsPalette) return { broken: "its table of colours is missing" };
      return packed.length === 0 ? { broken: "there is no picture in it" } : { ...header, packed };
    }
  }
  return { broken: "it is cut off" };
}

/** A PNG in two: all that it says of its picture, still a PNG, and the picture itself, packed as it is. */
export function pngParted(bytes: Uint8Array): { readonly said: Uint8Array; readonly packed: Uint8Array } {
  const chunks = [...pngChunks(bytes)];
  const told = chunks.filter(({ type }) => TOLD.includes(type)).map(({ whole }) => whole);
  const packed = chunks.filter(({ type }) => type === "IDAT").map(({ body }) => body);
  return { said: Buffer.concat([Uint8Array.from(SIGNATURE), ...told]), packed: Buffer.concat(packed) };
}

/** What a picture is drawn by. */
const TOLD = ["IHDR", "PLTE", "tRNS", "IEND"];

function sizes(body: Uint8Array): Omit<PngHeader, "packed"> | { readonly broken: string } {
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

/** Whether the rows of a PNG unpack to what its header says, not a byte more or less; why not, if they do not. */
export function pngUnpacks({ rows, unpacked, packed }: PngHeader): string | undefined {
  let data: Uint8Array;
  try {
    // In one piece, or the pieces would be there beside the whole.
    data = inflateSync(Buffer.concat(packed), { maxOutputLength: unpacked, chunkSize: Math.max(unpacked + 1, 64) });
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
