import { roundNumber } from "../operators.ts";

/** Serialises a PDF object by pdfkit's conventions: a primitive string is a name, a String object is text. */
export function serializeObject(value: unknown): string {
  if (typeof value === "string") return `/${value}`;
  if (typeof value === "number") return String(validateNumber(value));
  if (value === null || typeof value !== "object") return String(value);
  if (Array.isArray(value)) return `[${value.map((item) => serializeObject(item ?? null)).join(" ")}]`;
  if (value instanceof String) return serializeText(value.valueOf());
  if (value instanceof Date) return `(D:${value.toISOString().replace(/[-:T]|\.\d+/g, "")})`;
  if (value instanceof Uint8Array) return `<${Buffer.from(value).toString("hex")}>`;
  // References and pdfkit's name trees serialise themselves.
  if (Object.getPrototypeOf(value) !== Object.prototype) return String(value);
  let entries = "<<\n";
  for (const [key, entry] of Object.entries(value))
    if (entry !== undefined) entries += `/${key} ${serializeObject(entry)}\n`;
  return `${entries}>>`;
}

function validateNumber(value: number): number {
  if (value > -1e21 && value < 1e21) return roundNumber(value);
  throw new RangeError(`not a number for a file: ${value}`);
}

const ESCAPES: Readonly<Record<string, string>> = {
  "\n": "\\n",
  "\r": "\\r",
  "\t": "\\t",
  "\b": "\\b",
  "\f": "\\f",
  "\\": "\\\\",
  "(": "\\(",
  ")": "\\)",
};

/** Serialises a text string: ASCII unchanged, anything else as UTF-16BE with a byte order mark (ISO 32000-1, 7.9.2.2). */
function serializeText(text: string): string {
  const bytes = /[^\u0000-\u007f]/.test(text) ? `\u00fe\u00ff${utf16BigEndian(text)}` : text;
  return `(${bytes.replace(/[\n\r\t\b\f()\\]/g, (letter) => ESCAPES[letter]!)})`;
}

const utf16BigEndian = (text: string) => Buffer.from(text, "utf16le").swap16().toString("latin1");
