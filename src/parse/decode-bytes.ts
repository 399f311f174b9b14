/** A file's text and its encoding; or the kind of a file that holds no text. */
type Decoded =
  | { readonly kind: "text"; readonly text: string; readonly encoding: "UTF-8" | "UTF-16" | "Latin-1" }
  | { readonly kind: "other"; readonly what: string };

/** First bytes of binary files, with the name of their kind. */
const SIGNATURES: readonly (readonly [bytes: readonly number[], what: string])[] = [
  [[0x25, 0x50, 0x44, 0x46], "a PDF"],
  [[0x50, 0x4b, 0x03, 0x04], "a workbook of a spreadsheet program (or another packed file)"],
  [[0xd0, 0xcf, 0x11, 0xe0], "a workbook of an older spreadsheet program"],
  [[0x89, 0x50, 0x4e, 0x47], "a picture"],
  [[0xff, 0xd8, 0xff], "a picture"],
];

/** Decodes bytes of unknown origin: UTF-8, UTF-16 in either byte order, else Windows-1252. Drops the byte order mark. */
export function decodeBytes(bytes: Uint8Array): Decoded {
  const startsWith = (signature: readonly number[]) => signature.every((byte, index) => bytes[index] === byte);
  const other = SIGNATURES.find(([signature]) => startsWith(signature));
  if (other) return { kind: "other", what: other[1] };
  const utf16 = startsWith([0xff, 0xfe]) ? "utf-16le" : startsWith([0xfe, 0xff]) ? "utf-16be" : detectUtf16(bytes);
  if (utf16) return { kind: "text", text: new TextDecoder(utf16).decode(bytes), encoding: "UTF-16" };
  if (bytes.includes(0)) return { kind: "other", what: "no text" };
  try {
    return { kind: "text", text: new TextDecoder("utf-8", { fatal: true }).decode(bytes), encoding: "UTF-8" };
  } catch {
    return { kind: "text", text: new TextDecoder("windows-1252").decode(bytes), encoding: "Latin-1" };
  }
}

/** Detects UTF-16 without a byte order mark: in digits and Latin letters every second byte is zero. */
function detectUtf16(bytes: Uint8Array): "utf-16le" | "utf-16be" | undefined {
  const head = bytes.subarray(0, 512);
  if (head.length < 4 || bytes.length % 2 === 1) return undefined;
  const zeroBytes = (from: number) => head.filter((byte, index) => index % 2 === from && byte === 0).length;
  const most = head.length * 0.4;
  return zeroBytes(1) > most && zeroBytes(0) === 0
    ? "utf-16le"
    : zeroBytes(0) > most && zeroBytes(1) === 0
      ? "utf-16be"
      : undefined;
}
