/** A segment of a JPEG, from its marker to the next (ISO/IEC 10918-1, B.1.1); a scan includes its entropy-coded data. */
export type JpegSegment = { readonly marker: number; readonly bytes: Uint8Array };

export const JPEG = {
  start: new Uint8Array([0xff, 0xd8]),
  end: new Uint8Array([0xff, 0xd9]),
  /** Baseline, extended and progressive: every PDF reader decodes these frames. */
  frames: [0xc0, 0xc1, 0xc2] as readonly number[],
  scan: 0xda,
  comment: 0xfe,
} as const;

export const isJpeg = (bytes: Uint8Array): boolean => bytes[0] === 0xff && bytes[1] === 0xd8;

/** Parses the segments of a JPEG up to the end of the image; data behind it, such as a second image, is ignored. */
export function parseJpegSegments(bytes: Uint8Array): readonly JpegSegment[] {
  const segments: JpegSegment[] = [];
  let at = 2;
  while (at + 4 <= bytes.length && bytes[at] === 0xff) {
    const marker = bytes[at + 1]!;
    // Fill bytes may precede a marker.
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (marker === 0xd9) break;
    const head = at + 2 + readUint16(bytes, at + 2);
    const end = marker === JPEG.scan ? endOfScan(bytes, head) : head;
    segments.push({ marker, bytes: bytes.subarray(at, end) });
    at = end;
  }
  return segments;
}

/** Whether every segment has its length, and the end of the image follows the last. */
export function isWhole(bytes: Uint8Array, segments: readonly JpegSegment[]): boolean {
  const last = segments.at(-1);
  if (last === undefined || last.bytes.length < 4 || last.bytes.length < 2 + readUint16(last.bytes, 2)) return false;
  let at = last.bytes.byteOffset + last.bytes.length - bytes.byteOffset;
  while (bytes[at + 1] === 0xff) at++;
  return bytes[at] === 0xff && bytes[at + 1] === 0xd9;
}

/** Whether an application segment begins with this identifier. */
export const hasIdentifier = ({ bytes }: JpegSegment, name: string): boolean =>
  [...name].every((letter, i) => bytes[4 + i] === letter.charCodeAt(0));

const readUint16 = (bytes: Uint8Array, at: number): number => (bytes[at]! << 8) | bytes[at + 1]!;

/** Offset of the next marker: inside a scan, 0xff is followed by 0, by another fill byte or by a restart number. */
function endOfScan(bytes: Uint8Array, from: number): number {
  for (let at = from; at + 1 < bytes.length; at++) {
    if (bytes[at] !== 0xff) continue;
    const next = bytes[at + 1]!;
    if (next !== 0 && next !== 0xff && !(next >= 0xd0 && next <= 0xd7)) return at;
  }
  return bytes.length;
}

/** An embedded ICC profile and its number of channels. */
type ColourProfile = { readonly channels: 1 | 3; readonly bytes: Uint8Array };

const CHANNELS: Readonly<Record<string, 1 | 3>> = { GRAY: 1, "RGB ": 3 };
/** Bytes before the data: marker, length, "ICC_PROFILE\0", number, count. */
const PROFILE_OFFSET = 18;

export const profileSegments = (bytes: Uint8Array): readonly JpegSegment[] =>
  parseJpegSegments(bytes).filter((one) => one.marker === 0xe2 && hasIdentifier(one, "ICC_PROFILE\0"));

/** Joins the profile of a JPEG from its segments (ICC.1, annex B.4); undefined when incomplete, or neither grey nor RGB. */
export function findColourProfile(bytes: Uint8Array): ColourProfile | undefined {
  if (!isJpeg(bytes)) return undefined;
  const pieces = profileSegments(bytes).toSorted((a, b) => a.bytes[16]! - b.bytes[16]!);
  const profile = Buffer.concat(pieces.map((piece) => piece.bytes.subarray(PROFILE_OFFSET)));
  if (profile.length < 132) return undefined;
  const head = new DataView(profile.buffer, profile.byteOffset);
  const text = (at: number) => String.fromCharCode(...profile.subarray(at, at + 4));
  const channels = CHANNELS[text(16)];
  const whole = head.getUint32(0) === profile.length && text(36) === "acsp" && head.getUint8(8) <= 4;
  return whole && channels !== undefined ? { channels, bytes: profile } : undefined;
}
