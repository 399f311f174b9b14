import { join } from "node:path";
import { openShapes } from "../charts/scenegraph.ts";
import { readShapes } from "../charts/shapes.ts";
import { openFonts, readShaping } from "../pdf/font/fonts.ts";
import type { Resources } from "../pipeline/render-sheet.ts";
import { createLoadCache } from "../project/load-cache.ts";
import { createDownscale } from "../raster/cached-downscale.ts";
import type { Environment } from "./environment.ts";

/** Largest file of a font [bytes]: ten times what one has. */
const LARGEST_FONT = 2 * 1024 * 1024;

/** Opens what every sheet shares. */
export function openResources({ io, home, version }: Environment): Resources {
  return {
    io,
    fonts: openFonts({
      tables: readShaping(io.readTextFile(join(home, "dist", "fonts", "shaping.json"))),
      read: (path) => {
        const read = io.readFile(io.realPath(path) ?? path, LARGEST_FONT);
        if (read.kind !== "read") throw new Error(`the font cannot be read: ${path}`);
        return read.bytes;
      },
    }),
    shapes: openShapes(readShapes(io.readTextFile(join(home, "dist", "charts", "shapes.json")))),
    downscale: createDownscale(),
    templates: join(home, "templates"),
    cache: createLoadCache(),
    version,
  };
}
