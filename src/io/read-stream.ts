/** Reads a whole stream; undefined if it holds more than `largest` bytes. */
export async function readStream(
  source: AsyncIterable<Uint8Array | string>,
  largest: number,
): Promise<Uint8Array | undefined> {
  const parts: Uint8Array[] = [];
  let size = 0;
  for await (const part of source) {
    const bytes = typeof part === "string" ? new TextEncoder().encode(part) : part;
    parts.push(bytes);
    size += bytes.length;
    if (size > largest) return undefined;
  }
  return Buffer.concat(parts);
}
