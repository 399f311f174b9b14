import { deflateSync } from "node:zlib";

/**
 * Writes a PDF file with its small objects in one compressed object stream (ISO 32000-1, 7.5.7 and 7.5.8): a tagged sheet
 * has hundreds of them, which uncompressed would be more than half of the file.
 */
export type ObjectStreamWriter = {
  /** Adds an object by its serialised body, or its serialised dictionary and stream. Objects keep the order of addition. */
  readonly add: (number: number, body: string, stream?: Uint8Array) => void;
  /** Returns the whole file; `trailer` holds all entries of the trailer but Size. */
  readonly end: (trailer: string) => Buffer;
};

export function createObjectStreamWriter(version: string): ObjectStreamWriter {
  const parts: Uint8Array[] = [Buffer.from(`%PDF-${version}\n%\xff\xff\xff\xff\n`, "latin1")];
  const entries = new Map<number, readonly [kind: number, where: number, index: number]>();
  const packed: number[] = [];
  const bodies: string[] = [];
  let at = parts[0]!.length;
  let last = 0;

  const writeStream = (number: number, body: string, stream: Uint8Array) => {
    const head = Buffer.from(`${number} 0 obj\n${body}\nstream\n`, "latin1");
    entries.set(number, [1, at, 0]);
    parts.push(head, stream, END_OF_STREAM);
    at += head.length + stream.length + END_OF_STREAM.length;
  };
  const add: ObjectStreamWriter["add"] = (number, body, stream) => {
    last = Math.max(last, number);
    if (stream !== undefined) writeStream(number, body, stream);
    else {
      entries.set(number, [2, 0, packed.length]);
      packed.push(number);
      bodies.push(body);
    }
  };
  const writeDeflated = (number: number, entries: string, data: Buffer) => {
    const stream = deflateSync(data, { level: 9 });
    writeStream(number, `<< ${entries} /Filter /FlateDecode /Length ${stream.length} >>`, stream);
  };

  const end: ObjectStreamWriter["end"] = (trailer) => {
    const size = last + 1;
    const index = objectIndex(packed, bodies);
    writeDeflated(
      size,
      `/Type /ObjStm /N ${packed.length} /First ${index.length}`,
      Buffer.from(`${index}${bodies.join("\n")}`, "latin1"),
    );
    const table = at;
    entries.set(size + 1, [1, table, 0]);
    // Two bytes suffice for a sheet; an index of thousands of heads has more objects.
    const indexBytes = packed.length <= 0x1_0000 ? 2 : 4;
    const rows = Buffer.alloc((size + 2) * (5 + indexBytes));
    for (let number = 0; number < size + 2; number++) {
      const [kind, where, i] = entries.get(number) ?? FREE_ENTRY;
      const row = number * (5 + indexBytes);
      rows.writeUInt8(kind, row);
      rows.writeUInt32BE(kind === 2 ? size : where, row + 1);
      rows.writeUIntBE(i, row + 5, indexBytes);
    }
    writeDeflated(size + 1, `/Type /XRef /W [1 4 ${indexBytes}] /Size ${size + 2}\n${trailer}`, rows);
    parts.push(Buffer.from(`startxref\n${table}\n%%EOF\n`, "latin1"));
    return Buffer.concat(parts);
  };
  return { add, end };
}

/** Cross-reference entry of a free object (ISO 32000-1, table 18). */
const FREE_ENTRY = [0, 0, 65535] as const;
const END_OF_STREAM = Buffer.from("\nendstream\nendobj\n", "latin1");

/** The index of an object stream: pairs of object number and offset. */
function objectIndex(packed: readonly number[], bodies: readonly string[]): string {
  let at = 0;
  const index = packed.map((number, i) => {
    const entry = `${number} ${at}`;
    at += bodies[i]!.length + 1;
    return entry;
  });
  return `${index.join(" ")}\n`;
}
