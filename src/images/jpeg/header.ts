import { JPEG } from "./segments.ts";

/** Size and coding of a JPEG, or the reason why it cannot be drawn. */
type JpegHeader = JpegFrame | { readonly broken: string };
export type JpegFrame = {
  readonly width: number;
  readonly height: number;
  readonly progressive: boolean;
  readonly components: readonly JpegComponent[];
};

/** A colour of a JPEG: its samples across and down in a unit, and its quantisation table. */
export type JpegComponent = {
  readonly id: number;
  readonly across: number;
  readonly down: number;
  readonly quantisation: number;
};

const PROGRESSIVE = 0xc2;
/** Markers in the range of the frame markers that begin no frame. */
const NO_FRAME = [0xc4, 0xc8, 0xcc];
/** Most pixels along a side that libjpeg, the decoder of most readers, takes. */
const LONGEST_SIDE = 65_500;

export const UNKNOWN_CODING = "it is packed in a way that PDF readers do not know";
const UNKNOWN_COLOURS = "its colours are kept in a way that PDF readers do not know";

/** Parses the header of a JPEG (ISO/IEC 10918-1, annex B); undefined when the bytes are no JPEG. */
export function parseJpegHeader(bytes: Uint8Array): JpegHeader | undefined {
  if (!(bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff)) return undefined;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let size: JpegFrame | undefined;
  for (let at = 2; at + 4 <= bytes.length; ) {
    const marker = bytes[at + 1] as number;
    if (bytes[at] === 0xff && marker === 0xff) {
      at++; // a fill byte
      continue;
    }
    if (bytes[at] !== 0xff || marker < 0xc0 || (marker >= 0xd0 && marker <= 0xd9))
      return { broken: "a part of it does not begin where it should" };
    const length = view.getUint16(at + 2);
    if (length < 2 || at + 2 + length > bytes.length) return { broken: "it is cut off" };
    if (marker === JPEG.scan) return size ?? { broken: "it does not say its size" };
    if (marker <= 0xcf && !NO_FRAME.includes(marker)) {
      if (size) return { broken: "it says its size twice" };
      const frame = parseFrame(view, at + 4, length - 2, marker);
      if ("broken" in frame) return frame;
      size = frame;
    }
    at += 2 + length;
  }
  return { broken: "it is cut off" };
}

function parseFrame(view: DataView, at: number, length: number, marker: number): JpegHeader {
  if (!JPEG.frames.includes(marker)) return { broken: UNKNOWN_CODING };
  if (length < 6) return { broken: "it does not say its size" };
  const [precision, height, width, count] = [
    view.getUint8(at),
    view.getUint16(at + 1),
    view.getUint16(at + 3),
    view.getUint8(at + 5),
  ];
  if (precision !== 8 || ![1, 3, 4].includes(count) || length !== 6 + 3 * count) return { broken: UNKNOWN_COLOURS };
  if (width === 0 || height === 0) return { broken: "it does not say its size" };
  if (Math.max(width, height) > LONGEST_SIDE) return { broken: "a side of it is too long for PDF readers" };
  const components = Array.from({ length: count }, (_, i): JpegComponent => {
    const [id, sampling, quantisation] = [0, 1, 2].map((n) => view.getUint8(at + 6 + 3 * i + n)) as [
      number,
      number,
      number,
    ];
    return { id, across: sampling >> 4, down: sampling & 15, quantisation };
  });
  if (!components.every((one) => isSampling(one, components))) return { broken: UNKNOWN_COLOURS };
  return { width, height, progressive: marker === PROGRESSIVE, components };
}

/** Samples in a unit are 1 to 4, and libjpeg takes only those that divide the most of any colour. */
const isSampling = ({ across, down }: JpegComponent, all: readonly JpegComponent[]): boolean =>
  across >= 1 &&
  across <= 4 &&
  down >= 1 &&
  down <= 4 &&
  Math.max(...all.map((one) => one.across)) % across === 0 &&
  Math.max(...all.map((one) => one.down)) % down === 0;
