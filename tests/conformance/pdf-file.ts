import { inflateSync } from "node:zlib";
import { isOperator, lexer } from "./lexer.ts";
import { type Dict, isKind, nameOf, ref, type Stream, type Value } from "./values.ts";

/** A PDF file taken apart: its bytes, its objects by number, its trailer. */
export type PdfFile = {
  readonly bytes: Buffer;
  readonly objects: Map<number, Value>;
  readonly trailer: Dict;
  /** What the reader itself stumbled over. */
  readonly faults: readonly string[];
};

/** Reads a file of one section, its cross-reference a plain table or a stream. */
export function readPdf(bytes: Buffer): PdfFile {
  const source = bytes.toString("latin1");
  const start = Number(/startxref\s+(\d+)\s+%%EOF/.exec(source.slice(-200))?.[1]);
  const faults: string[] = [];
  return source.startsWith("xref", start)
    ? readTable(source, bytes, start, faults)
    : readReferenceStream(source, bytes, start, faults);
}

function readTable(source: string, bytes: Buffer, start: number, faults: string[]): PdfFile {
  const objects = new Map<number, Value>();
  const [, first, count] = /^xref\s+(\d+) (\d+)\s+/.exec(source.slice(start, start + 40))!;
  const rows = source.slice(start).matchAll(/^(\d{10}) (\d{5}) ([nf])/gm);
  [...rows].slice(0, Number(count)).forEach(([, offset, , kind], i) => {
    if (kind === "n") objects.set(Number(first) + i, readObject(source, bytes, Number(offset), faults));
  });
  const trailer = lexer(source, source.indexOf("trailer", start) + "trailer".length).next();
  if (isOperator(trailer) || !isKind(trailer, "dict")) throw new Error("no trailer");
  return { bytes, objects, trailer, faults };
}

/** ISO 32000-1, 7.5.8: rows of kind, place and index; objects of kind 2 lie in object streams (7.5.7). */
function readReferenceStream(source: string, bytes: Buffer, start: number, faults: string[]): PdfFile {
  const table = readObject(source, bytes, start, faults);
  if (!isKind(table, "stream") || nameOf(table.entries.get("Type")) !== "XRef") throw new Error("no cross-reference");
  const widths = table.entries.get("W") as number[];
  const data = inflateSync(table.data);
  const width = widths.reduce((sum, one) => sum + one, 0);
  const objects = new Map<number, Value>();
  const inStreams = new Map<number, number>();
  for (let number = 0; number * width < data.length; number++) {
    let at = number * width;
    const [kind, where] = widths.map((size) => {
      at += size;
      return size === 0 ? 1 : data.readUIntBE(at - size, size);
    });
    if (kind === 1 && where !== start) objects.set(number, readObject(source, bytes, where!, faults));
    if (kind === 2) inStreams.set(number, where!);
  }
  for (const holder of new Set(inStreams.values())) {
    const packed = objects.get(holder);
    if (!isKind(packed, "stream")) throw new Error(`object ${holder} is no object stream`);
    for (const [number, value] of unpacked(packed)) {
      if (inStreams.get(number) !== holder)
        faults.push(`object ${number} lies in a stream that the table does not name`);
      objects.set(number, value);
    }
    objects.delete(holder);
  }
  const missing = [...inStreams.keys()].filter((number) => !objects.has(number));
  faults.push(...missing.map((number) => `object ${number} is in no stream`));
  const entries = [...table.entries].filter(([key]) => ["Root", "Info", "ID", "Encrypt", "Size"].includes(key));
  return { bytes, objects, trailer: { kind: "dict", entries: new Map(entries) }, faults };
}

function unpacked(packed: Stream): readonly (readonly [number, Value])[] {
  const source = inflateSync(packed.data).toString("latin1");
  const first = packed.entries.get("First") as number;
  const index = source.slice(0, first).trim().split(/\s+/).map(Number);
  return Array.from({ length: packed.entries.get("N") as number }, (_, i) => {
    const value = lexer(source, first + index[2 * i + 1]!).next();
    if (value === undefined || isOperator(value)) throw new Error(`packed object ${index[2 * i]} holds nothing`);
    return [index[2 * i]!, value] as const;
  });
}

function readObject(source: string, bytes: Buffer, offset: number, faults: string[]): Value {
  const head = /^(\d+) 0 obj\s/.exec(source.slice(offset, offset + 24));
  if (!head) throw new Error(`no object at ${offset}`);
  const words = lexer(source, offset + head[0].length);
  const value = words.next();
  if (value === undefined || isOperator(value)) throw new Error(`object ${head[1]} holds nothing`);
  const after = words.next();
  if (!isKind(value, "dict") || !isOperator(after) || after.operator !== "stream") return value;
  const from = words.at + (source[words.at] === "\r" ? 2 : 1);
  const length = value.entries.get("Length");
  const end = source.indexOf("endstream", from + (typeof length === "number" ? Math.min(length, source.length) : 0));
  const honest = typeof length === "number" && /^\r?\n?endstream/.test(source.slice(from + length, from + length + 12));
  if (!honest) faults.push(`object ${head[1]}: Length is not that of its stream`);
  const until = honest ? from + length : end;
  return { kind: "stream", entries: value.entries, data: bytes.subarray(from, until) };
}

/**
 * What is made out of a file, made out once: most rules ask for the same few things. Whoever changes a file's objects writes it
 * and reads it again before he asks.
 */
export function once<T>(of: (file: PdfFile) => T): (file: PdfFile) => T {
  const known = new WeakMap<PdfFile, { readonly found: T }>();
  return (file) => {
    const { found } = known.get(file) ?? { found: of(file) };
    known.set(file, { found });
    return found;
  };
}

/** Follows a reference, and a reference to a reference. */
export function deref(file: PdfFile, value: Value | undefined): Value | undefined {
  let found = value;
  for (let i = 0; i < 20 && isKind(found, "ref"); i++) found = file.objects.get(found.number);
  return found;
}

/** What a dictionary or a stream holds under a key, references followed. */
export function get(file: PdfFile, value: Value | undefined, ...path: readonly string[]): Value | undefined {
  let found = deref(file, value);
  for (const key of path) {
    if (!isKind(found, "dict") && !isKind(found, "stream")) return undefined;
    found = deref(file, found.entries.get(key));
  }
  return found;
}

/** The same as a list: one value is a list of one, none is empty. */
export function listOf(file: PdfFile, value: Value | undefined): readonly Value[] {
  const found = deref(file, value);
  if (found === undefined || found === null) return [];
  return Array.isArray(found) ? found : [value!];
}

export const catalog = (file: PdfFile): Value | undefined => get(file, file.trailer, "Root");

/** A stream's bytes as they are meant. */
export function content(file: PdfFile, stream: Stream): Buffer {
  const filters = listOf(file, stream.entries.get("Filter")).map((filter) => nameOf(deref(file, filter)));
  return filters.includes("FlateDecode") ? inflateSync(stream.data) : stream.data;
}

/** Every dictionary and stream of the file that stands as an object, with its number. */
export function dictionaries(file: PdfFile): readonly (readonly [number, Dict | Stream])[] {
  return [...file.objects].flatMap(([number, value]) =>
    isKind(value, "dict") || isKind(value, "stream") ? [[number, value] as const] : [],
  );
}

/** Every dictionary and stream, those within others too. */
export const allDictionaries = once((file: PdfFile): readonly (Dict | Stream)[] => {
  const walk = (value: Value): readonly (Dict | Stream)[] => {
    if (Array.isArray(value)) return value.flatMap(walk);
    if (isKind(value, "dict") || isKind(value, "stream")) return [value, ...[...value.entries.values()].flatMap(walk)];
    return [];
  };
  return [...file.objects.values()].flatMap(walk);
});

/** Objects of a type. */
export const ofType = (file: PdfFile, type: string): readonly (Dict | Stream)[] =>
  allDictionaries(file).filter((one) => nameOf(deref(file, one.entries.get("Type"))) === type);

/** The file's pages in order, each with its own reference. */
export function pagesOf(file: PdfFile): readonly { readonly number: number; readonly page: Dict }[] {
  const walk = (node: Value | undefined): readonly { number: number; page: Dict }[] => {
    const found = deref(file, node);
    if (!isKind(found, "dict") || !isKind(node, "ref")) return [];
    const kids = get(file, found, "Kids");
    return Array.isArray(kids) ? kids.flatMap(walk) : [{ number: node.number, page: found }];
  };
  const root = catalog(file);
  return isKind(root, "dict") ? walk(root.entries.get("Pages")) : [];
}

/** Packs objects up again: a whole file, with the changes that were made to them. */
export function writePdf({ objects, trailer }: Pick<PdfFile, "objects" | "trailer">, version = "1.7"): Buffer {
  const parts: Buffer[] = [Buffer.from(`%PDF-${version}\n%\xff\xff\xff\xff\n`, "latin1")];
  const offsets = new Map<number, number>();
  let at = parts[0]!.length;
  const put = (part: Buffer) => {
    parts.push(part);
    at += part.length;
  };
  for (const [number, value] of objects) {
    offsets.set(number, at);
    put(Buffer.from(`${number} 0 obj\n${printed(value)}`, "latin1"));
    if (isKind(value, "stream"))
      put(Buffer.concat([Buffer.from("\nstream\n"), value.data, Buffer.from("\nendstream")]));
    put(Buffer.from("\nendobj\n"));
  }
  const size = Math.max(...objects.keys()) + 1;
  const rows = Array.from({ length: size }, (_, number) => {
    const offset = offsets.get(number);
    return offset === undefined ? "0000000000 65535 f \n" : `${String(offset).padStart(10, "0")} 00000 n \n`;
  });
  const start = at;
  trailer.entries.set("Size", size);
  put(
    Buffer.from(
      `xref\n0 ${size}\n${rows.join("")}trailer\n${printed(trailer)}\nstartxref\n${start}\n%%EOF\n`,
      "latin1",
    ),
  );
  return Buffer.concat(parts);
}

function printed(value: Value): string {
  if (value === null || typeof value === "boolean" || typeof value === "number") return String(value);
  if (Array.isArray(value)) return `[${value.map(printed).join(" ")}]`;
  switch (value.kind) {
    case "name":
      return `/${value.name.replace(/[^!-~]|[()<>[\]{}/%#]/g, (c) => `#${c.charCodeAt(0).toString(16).padStart(2, "0")}`)}`;
    case "text":
      return `<${Buffer.from(value.text, "latin1").toString("hex")}>`;
    case "ref":
      return `${value.number} 0 R`;
    default:
      return `<<${[...value.entries].map(([key, held]) => `${printed({ kind: "name", name: key })} ${printed(held)}`).join(" ")}>>`;
  }
}

/** Adds an object, and says how to refer to it. */
export function addObject(file: PdfFile, value: Value): Value {
  const number = Math.max(...file.objects.keys()) + 1;
  file.objects.set(number, value);
  return ref(number);
}
