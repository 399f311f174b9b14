import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { jpegHeader } from "../images/jpeg-header.ts";
import { isJpeg } from "../images/jpeg-segments.ts";
import type { Downscale } from "./cached-downscale.ts";

type Size = { readonly width: number; readonly height: number };

/** A photo as it goes into the file, and what there is to say of it; a remark does not know its place yet. */
export type FittedPhoto = {
  readonly bytes: Uint8Array;
  readonly remark?: Pick<Diagnostic, "code" | "message" | "hint" | "note">;
};

/** Dots an inch: as many as print shows, and the fewest that look sharp. */
const DPI = { print: 300, sharp: 200 } as const;

/** Pixels of a progressive JPEG that are opened to make it smaller: unlike others it is unpacked whole. */
export const PROGRESSIVE_PIXELS = 40_000_000;

/**
 * Makes a photo fit for the size at which it is printed. One finer than print is made smaller; any other goes in as it is,
 * byte for byte. `pixels`: its size as it stands upright; `drawn`: on the page [pt].
 */
export async function fitPhoto(
  name: string,
  bytes: Uint8Array,
  pixels: Size,
  drawn: Size,
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
    return { bytes, remark: kept(name, "it is a progressive JPEG of very many pixels") };
  const target = { width: across(DPI.print), height: Math.round((drawn.height / 72) * DPI.print) };
  const smaller = await downscale(bytes, target);
  if (smaller === undefined) return { bytes, remark: kept(name, "nothing can be seen in it") };
  return { bytes: smaller.length < bytes.length ? smaller : bytes };
}

const kept = (name: string, note: string) => ({
  code: "photo/kept-large" as const,
  message: `photo \`${name}\` is finer than print and could not be made smaller`,
  note,
  hint: "save it again as a plain JPEG, 2000 pixels across",
});

function isProgressive(bytes: Uint8Array): boolean {
  const header = isJpeg(bytes) ? jpegHeader(bytes) : undefined;
  return header !== undefined && "width" in header && header.progressive;
}
