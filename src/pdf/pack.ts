import { deflateSync } from "node:zlib";

/**
 * A finished file, its small objects packed into one compressed stream (ISO 32000-1, 7.5.7 and 7.5.8): a tagged sheet has
 * hundreds of them, and pdfkit writes each in the open. Takes a file as pdfkit ends it: one section, a plain cross-reference table.
 */
export function pack(bytes: Buffer): Buffer {
  const { offsets, trailer, start } = crossReference(bytes);
  const bodies = new Map<number, string>();
  const parts: Buffer[] = [bytes.subarray(0, Math.min(...offsets.values()))];
  const places = new Map<number, readonly [kind: number, where: number, index: number]>();
  let at = parts[0]!.length;
  const ends = [...offsets.values(), start].sort((a, b) => a - b);
  for (const [number, offset] of [...offsets].sort(([, a], [, b]) => a - b)) {
    const whole = bytes.subarray(offset, ends[ends.indexOf(offset) + 1]);
    const body = /^\d+ 0 obj\n([\s\S]*)\nendobj\n$/.exec(whole.toString("latin1"))?.[1];
    if (body === undefined) throw new Error(`object ${number} does not end where the next begins`);
    if (!body.endsWith("\nendstream")) {
      bodies.set(number, body);
      continue;
    }
    places.set(number, [1, at, 0]);
    parts.push(whole);
    at += whole.length;
  }

  const size = Math.max(...offsets.keys()) + 1;
  const packed = objectStream(size, bodies);
  places.set(size, [1, at, 0]);
  [...bodies.keys()].forEach((number, index) => {
    places.set(number, [2, size, index]);
  });
  const table = at + packed.length;
  places.set(size + 1, [1, table, 0]);
  // Two bytes count the objects of any sheet; an index of thousands of heads has more.
  const indexBytes = bodies.size <= 0x1_0000 ? 2 : 4;
  const rows = Buffer.concat(Array.from({ length: size + 2 }, (_, number) => row(places.get(number), indexBytes)));
  const entries = trailer.replace(/\/Size \d+/, `/Size ${size + 2}`);
  const references = stream(size + 1, `/Type /XRef /W [1 4 ${indexBytes}] ${entries}`, rows);
  return Buffer.concat([...parts, packed, references, Buffer.from(`startxref\n${table}\n%%EOF\n`, "latin1")]);
}

/** Where each object begins, what the trailer says, and where the table itself begins. */
function crossReference(bytes: Buffer) {
  const tail = bytes.toString("latin1", bytes.length - 64);
  const start = Number(/startxref\n(\d+)\n%%EOF\s*$/.exec(tail)?.[1]);
  const section = bytes.toString("latin1", start);
  const found = /^xref\n0 \d+\n([\s\S]*?)trailer\n<<([\s\S]*)>>\nstartxref/.exec(section);
  if (!found) throw new Error("no plain cross-reference table");
  const offsets = new Map<number, number>();
  found[1]!.split("\n").forEach((line, number) => {
    if (/ n\s*$/.test(line)) offsets.set(number, Number(line.slice(0, 10)));
  });
  return { offsets, trailer: found[2]!.trim(), start };
}

function objectStream(number: number, bodies: ReadonlyMap<number, string>): Buffer {
  const index: string[] = [];
  let at = 0;
  for (const [held, body] of bodies) {
    index.push(`${held} ${at}`);
    at += body.length + 1;
  }
  const first = `${index.join(" ")}\n`;
  const data = Buffer.from(first + [...bodies.values()].join("\n"), "latin1");
  return stream(number, `/Type /ObjStm /N ${bodies.size} /First ${first.length}`, data);
}

function stream(number: number, entries: string, data: Buffer): Buffer {
  const deflated = deflateSync(data, { level: 9 });
  return Buffer.concat([
    Buffer.from(
      `${number} 0 obj\n<< ${entries} /Filter /FlateDecode /Length ${deflated.length} >>\nstream\n`,
      "latin1",
    ),
    deflated,
    Buffer.from("\nendstream\nendobj\n", "latin1"),
  ]);
}

/** One row of the cross-reference stream, as wide as its W says; an absent object is free. */
function row([kind, where, index]: readonly [number, number, number] = [0, 0, 65535], indexBytes: number): Buffer {
  const bytes = Buffer.alloc(5 + indexBytes);
  bytes.writeUInt8(kind, 0);
  bytes.writeUInt32BE(where, 1);
  bytes.writeUIntBE(index, 5, indexBytes);
  return bytes;
}
