/** A file's text and how it was written; or what it is instead of a text. */
export type Decoded =
  | { readonly kind: "text"; readonly text: string; readonly encoding: "UTF-8" | "UTF-16" | "Latin-1" }
  | { readonly kind: "other"; readonly what: string };

/** How files that are no text begin, and what they are called. */
const SIGNATURES: readonly (readonly [bytes: readonly number[], what: string])[] = [
  [[0x25, 0x50, 0x44, 0x46], "a PDF"],
  [[0x50, 0x4b, 0x03, 0x04], "a workbook of a spreadsheet program (or another packed file)"],
  [[0xd0, 0xcf, 0x11, 0xe0], "a workbook of an older spreadsheet program"],
  [[0x89, 0x50, 0x4e, 0x47], "a picture"],
  [[0xff, 0xd8, 0xff], "a picture"],
];

/** The text of bytes that came from anywhere: UTF-8, UTF-16 either way round, else Latin-1 as Windows writes it. The mark at its head is dropped. */
export function decodeBytes(bytes: Uint8Array): Decoded {
  const begins = (signature: readonly number[]) => signature.every((byte, index) => bytes[index] === byte);
  const other = SIGNATURES.find(([signature]) => begins(signature));
  if (other) return { kind: "other", what: other[1] };
  const wide = begins([0xff, 0xfe]) ? "utf-16le" : begins([0xfe, 0xff]) ? "utf-16be" : unmarkedWide(bytes);
  if (wide) return { kind: "text", text: new TextDecoder(wide).decode(bytes), encoding: "UTF-16" };
  if (bytes.includes(0)) return { kind: "other", what: "no text" };
  try {
    return { kind: "text", text: new TextDecoder("utf-8", { fatal: true }).decode(bytes), encoding: "UTF-8" };
  } catch {
    return { kind: "text", text: new TextDecoder("windows-1252").decode(bytes), encoding: "Latin-1" };
  }
}

/** Numbers and Latin letters in UTF-16 have a nothing as every second byte. */
function unmarkedWide(bytes: Uint8Array): "utf-16le" | "utf-16be" | undefined {
  const head = bytes.subarray(0, 512);
  if (head.length < 4 || bytes.length % 2 === 1) return undefined;
  const nothings = (from: number) => head.filter((byte, index) => index % 2 === from && byte === 0).length;
  const most = head.length * 0.4;
  return nothings(1) > most && nothings(0) === 0
    ? "utf-16le"
    : nothings(0) > most && nothings(1) === 0
      ? "utf-16be"
      : undefined;
}
