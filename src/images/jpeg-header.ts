/** Size and coding of a JPEG, or the reason why it cannot be drawn. */
type JpegHeader = JpegFrame | { readonly broken: string };
type JpegFrame = { readonly width: number; readonly height: number; readonly progressive: boolean };

/** Frame markers that every PDF reader can decode: baseline, extended and progressive. */
const DECODABLE = [0xc0, 0xc1, 0xc2];
const PROGRESSIVE = 0xc2;
/** Markers in the range of the frame markers that begin no frame. */
const NO_FRAME = [0xc4, 0xc8, 0xcc];
const START_OF_SCAN = 0xda;

/** Parses the header of a JPEG (ISO/IEC 10918-1, annex B); undefined when the bytes are no JPEG. */
export function parseJpegHeader(bytes: Uint8Array): JpegHeader | undefined {
  if (!(bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff)) return undefined;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let size: JpegFrame | undefined;
  for (let at = 2; at + 4 <= bytes.length; ) {
    const marker = bytes[at + 1] as number;
    if (bytes[at] !== 0xff || marker < 0xc0 || (marker >= 0xd0 && marker <= 0xd9))
      return { broken: "a part of it does not begin where it should" };
    const length = view.getUint16(at + 2);
    if (length < 2 || at + 2 + length > bytes.length) return { broken: "it is cut off" };
    if (marker === START_OF_SCAN) {
      if (!size) return { broken: "it does not say its size" };
      return hasEndMarker(bytes, at) ? size : { broken: "it is cut off" };
    }
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
  if (!DECODABLE.includes(marker)) return { broken: "it is packed in a way that PDF readers do not know" };
  if (length < 6) return { broken: "it does not say its size" };
  const [precision, height, width, components] = [
    view.getUint8(at),
    view.getUint16(at + 1),
    view.getUint16(at + 3),
    view.getUint8(at + 5),
  ];
  if (precision !== 8 || ![1, 3, 4].includes(components) || length !== 6 + 3 * components)
    return { broken: "its colours are kept in a way that PDF readers do not know" };
  if (width === 0 || height === 0) return { broken: "it does not say its size" };
  return { width, height, progressive: marker === PROGRESSIVE };
}

/** Whether an end-of-image marker follows `from`; cameras may append data behind it. */
function hasEndMarker(bytes: Uint8Array, from: number): boolean {
  for (let at = bytes.length - 2; at > from; at--) if (bytes[at] === 0xff && bytes[at + 1] === 0xd9) return true;
  return false;
}
