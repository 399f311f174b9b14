import { rounded } from "../operators.ts";

/** A value as a PDF says it, just as pdfkit does: a bare string is a name, a String object is words. */
export function serializeObject(value: unknown): string {
  if (typeof value === "string") return `/${value}`;
  if (typeof value === "number") return String(checked(value));
  if (value === null || typeof value !== "object") return String(value);
  if (Array.isArray(value)) return `[${value.map((item) => serializeObject(item ?? null)).join(" ")}]`;
  if (value instanceof String) return words(value.valueOf());
  if (value instanceof Date) return `(D:${value.toISOString().replace(/[-:T]|\.\d+/g, "")})`;
  if (value instanceof Uint8Array) return `<${Buffer.from(value).toString("hex")}>`;
  // References to other objects, and pdfkit's trees, say themselves.
  if (Object.getPrototypeOf(value) !== Object.prototype) return String(value);
  let entries = "<<\n";
  for (const [key, entry] of Object.entries(value))
    if (entry !== undefined) entries += `/${key} ${serializeObject(entry)}\n`;
  return `${entries}>>`;
}

function checked(value: number): number {
  if (value > -1e21 && value < 1e21) return rounded(value);
  throw new RangeError(`not a number for a file: ${value}`);
}

const ESCAPED: Readonly<Record<string, string>> = {
  "\n": "\\n",
  "\r": "\\r",
  "\t": "\\t",
  "\b": "\\b",
  "\f": "\\f",
  "\\": "\\\\",
  "(": "\\(",
  ")": "\\)",
};

/** Text as a PDF holds it: as it is, or as UTF-16 with its mark in front (ISO 32000-1, 7.9.2.2). */
function words(text: string): string {
  const bytes = /[^\u0000-\u007f]/.test(text) ? `\u00fe\u00ff${bigEndian(text)}` : text;
  return `(${bytes.replace(/[\n\r\t\b\f()\\]/g, (letter) => ESCAPED[letter]!)})`;
}

const bigEndian = (text: string) => Buffer.from(text, "utf16le").swap16().toString("latin1");
