import { isJpeg, isNamed, type JpegSegment, jpegSegments } from "./jpeg-segments.ts";

/** What a picture's numbers mean as colours: an ICC profile, for so many channels. */
export type ColourProfile = { readonly channels: 1 | 3; readonly bytes: Uint8Array };

const CHANNELS: Readonly<Record<string, 1 | 3>> = { GRAY: 1, "RGB ": 3 };
/** Marker, length, "ICC_PROFILE\0", number, count. */
const LEAD = 18;

export const profileSegments = (bytes: Uint8Array): readonly JpegSegment[] =>
  jpegSegments(bytes).filter((one) => one.marker === 0xe2 && isNamed(one, "ICC_PROFILE\0"));

/** The profile inside a JPEG, in pieces of 64 kB (ICC.1, annex B.4); none where it is not whole or of other colours. */
export function colourProfile(bytes: Uint8Array): ColourProfile | undefined {
  if (!isJpeg(bytes)) return undefined;
  const pieces = profileSegments(bytes).toSorted((a, b) => a.bytes[16]! - b.bytes[16]!);
  const profile = Buffer.concat(pieces.map((piece) => piece.bytes.subarray(LEAD)));
  if (profile.length < 132) return undefined;
  const head = new DataView(profile.buffer, profile.byteOffset);
  const text = (at: number) => String.fromCharCode(...profile.subarray(at, at + 4));
  const channels = CHANNELS[text(16)];
  const whole = head.getUint32(0) === profile.length && text(36) === "acsp" && head.getUint8(8) <= 4;
  return whole && channels !== undefined ? { channels, bytes: profile } : undefined;
}
