import { createHash } from "node:crypto";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { parseJpegHeader } from "../images/jpeg/header.ts";
import { isJpeg } from "../images/jpeg/segments.ts";
import { memoize } from "../util/memoize.ts";
import type { Target } from "./downscale-photo.ts";

type Size = { readonly width: number; readonly height: number };

/** A photo for embedding, and a remark on it whose position the caller adds. */
type FittedPhoto = {
  readonly bytes: Uint8Array;
  /** Only the part that is seen is left. */
  readonly cropped?: true;
  readonly remark?: Pick<Diagnostic, "code" | "message" | "hint" | "note">;
};

/** Dots an inch: the most that print resolves, and the fewest that look sharp. */
const DPI = { print: 300, sharp: 200 } as const;

/** Most pixels of a progressive JPEG that is scaled down: unlike others it is decoded as a whole in memory. */
export const PROGRESSIVE_PIXELS = 40_000_000;

/**
 * Fits a photo to its printed size: one finer than print is scaled down, any other is embedded unchanged. `pixels` is its
 * upright size, `drawn` its size on the page [pt], of which no more than `seen` is kept.
 */
export async function fitPhoto(
  name: string,
  bytes: Uint8Array,
  pixels: Size,
  drawn: Size & { readonly seen?: Target["seen"] },
  downscale: Downscale,
): Promise<FittedPhoto> {
  const dpi = (pixels.width / drawn.width) * 72;
  const across = (dots: number) => Math.round((drawn.width / 72) * dots);
  if (dpi < DPI.sharp)
    return {
      bytes,
      remark: {
        code: "photo/coarse",
        message: `photo \`${name}\` is printed at ${Math.round(dpi)} dots an inch, and will look soft`,
        hint: `give one of ${across(DPI.print)} pixels across or more, or print it smaller`,
      },
    };
  if (dpi <= DPI.print) return { bytes };
  if (isProgressive(bytes) && pixels.width * pixels.height > PROGRESSIVE_PIXELS)
    return { bytes, remark: unscaledPhotoRemark(name, "it is a progressive JPEG of very many pixels") };
  const smaller = await downscale(bytes, targetOf(drawn));
  if (smaller === undefined) return { bytes, remark: unscaledPhotoRemark(name, "nothing can be seen in it") };
  return smaller.length < bytes.length ? { bytes: smaller, ...(drawn.seen ? { cropped: true } : {}) } : { bytes };
}

/** Pixels of a photo of that size in print, and of the part that is seen of it. */
function targetOf({ width, height, seen }: Parameters<typeof fitPhoto>[3]): Target {
  const pixels = (length: number) => Math.round((length / 72) * DPI.print);
  const whole = { width: pixels(width), height: pixels(height) };
  if (!seen) return whole;
  const at = { x: pixels(seen.x), y: pixels(seen.y) };
  return { ...whole, seen: { ...at, width: pixels(seen.width), height: pixels(seen.height) } };
}

const unscaledPhotoRemark = (name: string, note: string) => ({
  code: "photo/kept-large" as const,
  message: `photo \`${name}\` is finer than print and could not be made smaller`,
  note,
  hint: "save it again as a plain JPEG, 2000 pixels across",
});

function isProgressive(bytes: Uint8Array): boolean {
  const header = isJpeg(bytes) ? parseJpegHeader(bytes) : undefined;
  return header !== undefined && "width" in header && header.progressive;
}

/** Scales a photo down; undefined when the result is blank. */
export type Downscale = (bytes: Uint8Array, target: Target) => Promise<Uint8Array | undefined>;

/** Photos of a job, once for print and once for e-mail. */
const MAX_PHOTOS = 24;

/** Creates a memoised `downscalePhoto`: the sheets of a job share photos, and a live preview renders them repeatedly. */
export const createDownscale = (): Downscale =>
  memoize(
    async (bytes: Uint8Array, target: Target) => {
      const { downscalePhoto } = await import("./downscale-photo.ts");
      return downscalePhoto(bytes, target);
    },
    {
      max: MAX_PHOTOS,
      key: (bytes, target) => `${createHash("sha256").update(bytes).digest("hex")} ${JSON.stringify(target)}`,
    },
  );
