import { deflateSync } from "node:zlib";

/**
 * A file while it is written, its small objects packed into one compressed stream (ISO 32000-1, 7.5.7 and 7.5.8): a tagged
 * sheet has hundreds of them, and in the open they would be more than half of it.
 */
export type PackedFile = {
  /** Adds an object: what it says, or what its dictionary says, and its stream. Objects keep the order in which they are added. */
  readonly add: (number: number, says: string, stream?: Uint8Array) => void;
  /** The whole file, with the entries of its trailer but for Size. */
  readonly end: (trailer: string) => Buffer;
};

export function objectStreamWriter(version: string): PackedFile {
  const parts: Uint8Array[] = [Buffer.from(`%PDF-${version}\n%\xff\xff\xff\xff\n`, "latin1")];
  const places = new Map<number, readonly [kind: number, where: number, index: number]>();
  const held: number[] = [];
  const bodies: string[] = [];
  let at = parts[0]!.length;
  let last = 0;

  const put = (number: number, says: string, stream: Uint8Array) => {
    const head = Buffer.from(`${number} 0 obj\n${says}\nstream\n`, "latin1");
    places.set(number, [1, at, 0]);
    parts.push(head, stream, END_OF_STREAM);
    at += head.length + stream.length + END_OF_STREAM.length;
  };
  const add: PackedFile["add"] = (number, says, stream) => {
    last = Math.max(last, number);
    if (stream !== undefined) put(number, says, stream);
    else {
      places.set(number, [2, 0, held.length]);
      held.push(number);
      bodies.push(says);
    }
  };
  const deflated = (number: number, entries: string, data: Buffer) => {
    const stream = deflateSync(data, { level: 9 });
    put(number, `<< ${entries} /Filter /FlateDecode /Length ${stream.length} >>`, stream);
  };

  const end: PackedFile["end"] = (trailer) => {
    const size = last + 1;
    const index = objectIndex(held, bodies);
    deflated(
      size,
      `/Type /ObjStm /N ${held.length} /First ${index.length}`,
      Buffer.from(`${index}${bodies.join("\n")}`, "latin1"),
    );
    const table = at;
    places.set(size + 1, [1, table, 0]);
    // Two bytes count the objects of any sheet; an index of thousands of heads has more.
    const indexBytes = held.length <= 0x1_0000 ? 2 : 4;
    const rows = Buffer.alloc((size + 2) * (5 + indexBytes));
    for (let number = 0; number < size + 2; number++) {
      const [kind, where, i] = places.get(number) ?? FREE;
      const row = number * (5 + indexBytes);
      rows.writeUInt8(kind, row);
      rows.writeUInt32BE(kind === 2 ? size : where, row + 1);
      rows.writeUIntBE(i, row + 5, indexBytes);
    }
    deflated(size + 1, `/Type /XRef /W [1 4 ${indexBytes}] /Size ${size + 2}\n${trailer}`, rows);
    parts.push(Buffer.from(`startxref\n${table}\n%%EOF\n`, "latin1"));
    return Buffer.concat(parts);
  };
  return { add, end };
}

/** An object that is not there (ISO 32000-1, table 18). */
const FREE = [0, 0, 65535] as const;
const END_OF_STREAM = Buffer.from("\nendstream\nendobj\n", "latin1");

/** Which object begins where in the stream. */
function objectIndex(held: readonly number[], bodies: readonly string[]): string {
  let at = 0;
  const index = held.map((number, i) => {
    const entry = `${number} ${at}`;
    at += bodies[i]!.length + 1;
    return entry;
  });
  return `${index.join(" ")}\n`;
}
