import { join } from "node:path";
import { openShapes, parseShapes } from "../charts/scenegraph.ts";
import { openFonts, parseShaping } from "../pdf/font/fonts.ts";
import type { Resources } from "../pipeline/render-sheet.ts";
import { createLoadCache } from "../project/load-cache.ts";
import { createDownscale } from "../raster/fit-photo.ts";
import type { Environment } from "./environment.ts";

/** Upper limit of a font file [bytes], ten times the usual size. */
const MAX_FONT_BYTES = 2 * 1024 * 1024;

/** Opens the fonts, chart shapes and caches that all sheets of a run share. */
export function openResources({ io, home, version }: Environment): Resources {
  const folder = join(home, "dist", "fonts");
  return {
    io,
    fonts: openFonts({
      folder,
      tables: parseShaping(io.readTextFile(join(folder, "shaping.json"))),
      read: (path) => {
        const read = io.readFile(io.realPath(path) ?? path, MAX_FONT_BYTES);
        if (read.kind !== "read") throw new Error(`the font cannot be read: ${path}`);
        return read.bytes;
      },
    }),
    shapes: openShapes(parseShapes(io.readTextFile(join(home, "dist", "charts", "shapes.json")))),
    downscale: createDownscale(),
    templates: join(home, "templates"),
    cache: createLoadCache(),
    version,
  };
}
