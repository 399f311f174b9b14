import { createHash } from "node:crypto";
import { smallerPhoto } from "./smaller-photo.ts";

/** Photos of a job, on a sheet for print and on one for the mailbox. */
const MOST = 24;
const known = new Map<string, Uint8Array | undefined>();

/** A photo made smaller, once for the same bytes and size: several sheets of a job show it, and a live page draws them again and again. */
export async function onceSmaller(
  bytes: Uint8Array,
  target: { readonly width: number; readonly height: number },
): Promise<Uint8Array | undefined> {
  const key = `${createHash("sha256").update(bytes).digest("hex")} ${target.width} ${target.height}`;
  if (known.has(key)) return known.get(key);
  const smaller = await smallerPhoto(bytes, target);
  if (known.size >= MOST) known.delete(known.keys().next().value as string);
  known.set(key, smaller);
  return smaller;
}
