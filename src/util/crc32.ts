const TABLE = Uint32Array.from({ length: 256 }, (_, start) => {
  let value = start;
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1;
  return value;
});

/** The checksum of a PNG chunk, over its type and data (ISO/IEC 15948, annex D). */
export function crc32(bytes: Uint8Array): number {
  let value = 0xffffffff;
  for (let at = 0; at < bytes.length; at++) value = TABLE[(value ^ bytes[at]!) & 0xff]! ^ (value >>> 8);
  return (value ^ 0xffffffff) >>> 0;
}
