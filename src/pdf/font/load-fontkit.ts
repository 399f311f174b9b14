import { createRequire } from "node:module";
import type * as Fontkit from "fontkit";

/** Loads fontkit at first use: texts of common letters do not need it. The build replaces this file, to load its own bundle. */
export const loadFontkit = () => createRequire(import.meta.url)("fontkit") as typeof Fontkit;
