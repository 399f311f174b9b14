import { join } from "node:path";
import { readShapes } from "../charts/shapes.ts";
import type { Kit } from "../make-sheet.ts";
import { openFonts } from "../pdf/fonts.ts";
import type { World } from "./world.ts";

/** Opens what every sheet shares. */
export function openKit({ io, home, version }: World): Kit {
  return {
    io,
    fonts: openFonts(),
    shapes: readShapes(io.readTextFile(join(home, "dist", "charts", "shapes.json"))),
    templates: join(home, "templates"),
    version,
  };
}
