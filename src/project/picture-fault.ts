import { findJpegFault } from "../images/jpeg/find-jpeg-fault.ts";
import { parseJpegHeader } from "../images/jpeg/header.ts";
import { findPngFault, parsePngHeader } from "../images/png-header.ts";
import { parseSvg } from "../images/svg/parse-svg.ts";
import { MAX_PIXELS, UNPACKED } from "./limits.ts";
import type { FileError } from "./load-file.ts";

/** Checks that a picture can be drawn. The header is checked before any data is decompressed, then all of its data. */
export function checkPicture(bytes: Uint8Array, name: string): FileError | undefined {
  const refuse = (code: FileError["code"], message: string, hint: string): FileError => ({ code, message, hint });
  const broken = (why: string) =>
    refuse(
      "project/picture-broken",
      `\`${name}\` cannot be drawn: ${why}`,
      "open it, see whether it is whole, and save it again",
    );
  const jpeg = parseJpegHeader(bytes);
  const png = jpeg === undefined ? parsePngHeader(bytes) : undefined;
  const header = jpeg ?? png;
  if (header === undefined)
    return refuse("project/picture-kind", `\`${name}\` is neither a JPEG nor a PNG picture`, "save it as JPEG or PNG");
  if ("broken" in header) return broken(header.broken);
  const pixels = header.width * header.height;
  if (pixels > MAX_PIXELS)
    return refuse(
      "project/picture-pixels",
      `\`${name}\` has ${header.width} × ${header.height} pixels; at most ${MAX_PIXELS / 1e6} million are drawn`,
      "save it smaller: 2000 pixels across are sharp on any page",
    );
  if (png && "unpacked" in png && png.unpacked > UNPACKED)
    return refuse(
      "project/picture-pixels",
      `\`${name}\` takes ${Math.ceil(png.unpacked / 1e6)} MB unpacked; at most ${UNPACKED / 1e6} MB are`,
      "save it smaller, or as JPEG",
    );
  const why = "unpacked" in header ? findPngFault(bytes, header) : findJpegFault(bytes, header);
  return why === undefined ? undefined : broken(why);
}

/** Checks that an SVG logo holds filled shapes and nothing else. */
export function svgFault(bytes: Uint8Array, name: string): FileError | undefined {
  const parsed = parseSvg(bytes);
  if ("picture" in parsed) return undefined;
  return {
    code: "project/picture-broken",
    message: `\`${name}\` cannot be drawn: ${parsed.fault}`,
    hint: "save it as plain SVG with all text and lines turned into filled outlines, or as PNG",
  };
}
