import { join } from "node:path";
import type { Io } from "../../io/io.ts";
import type { Fonts } from "../../pdf/font/fonts.ts";

/** A file of the page with its media type. */
export type PageFile = { readonly type: string; readonly bytes: Uint8Array | string };

/** Upper limit of a file's size [bytes]; the fonts are the largest. */
const LARGEST_FILE = 4 * 1024 * 1024;

/** The page's files by path, read once; no other file is ever served. */
export function loadPageFiles(home: string, io: Io, fonts: Fonts): ReadonlyMap<string, PageFile> {
  const built = (name: string) => io.readTextFile(join(home, "dist", "live", name));
  const font = (path: string): PageFile => {
    const read = io.readFile(io.realPath(path) ?? path, LARGEST_FILE);
    if (read.kind !== "read") throw new Error(`the font cannot be read: ${path}`);
    return { type: "font/ttf", bytes: read.bytes };
  };
  return new Map<string, PageFile>([
    ["", { type: "text/html; charset=utf-8", bytes: built("index.html") }],
    ["page.js", { type: "text/javascript; charset=utf-8", bytes: built("page.js") }],
    ["page.css", { type: "text/css; charset=utf-8", bytes: built("page.css") }],
    ["bench.css", { type: "text/css; charset=utf-8", bytes: built("bench.css") }],
    ["icon.svg", { type: "image/svg+xml", bytes: built("icon.svg") }],
    ["licences.txt", { type: "text/plain; charset=utf-8", bytes: built("licences.txt") }],
    ["job.schema.json", { type: "application/json", bytes: io.readTextFile(join(home, "schemas", "job.schema.json")) }],
    ["regular.ttf", font(fonts.paths.regular)],
    ["semibold.ttf", font(fonts.paths.semibold)],
  ]);
}
