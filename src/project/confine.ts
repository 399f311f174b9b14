import { dirname, isAbsolute, relative, resolve, sep } from "node:path";
import type { Diagnostic, Span } from "../diagnostics/diagnostic.ts";
import type { Io } from "../io/io.ts";
import { loadFile } from "./load-file.ts";

/** A path as typed in a file, and where. */
export type TypedPath = {
  readonly typed: string;
  /** The file that names it: the path is relative to it. */
  readonly from: string;
  /** The folder that it may not leave. */
  readonly root: string;
  readonly at: Span;
  /** What it should be, for messages: "readings file". */
  readonly what: string;
  readonly largest: number;
};

/** Whether a path lies below a folder. Both without links, else a link could lead out. */
export const isInside = (folder: string, path: string): boolean => {
  const way = relative(folder, path);
  return way !== "" && way !== ".." && !way.startsWith(`..${sep}`) && !isAbsolute(way);
};

/** Where a file stands inside its root, as named and without links. */
export type Confined = { readonly path: string; readonly real: string } | { readonly fault: Diagnostic };

/** Resolves a path that a file names to something inside the root, links followed. */
function confine({ typed, from, root, at, what }: TypedPath, io: Io): Confined {
  const refuse = (code: Diagnostic["code"], message: string, hint: string): Confined => ({
    fault: { severity: "error", code, message, at, hint },
  });
  if (/^[a-z][a-z0-9+.-]+:/i.test(typed))
    return refuse(
      "project/path-url",
      `\`${typed}\` is an address, not a path`,
      "nothing is fetched: put the file beside the job",
    );
  if (isAbsolute(typed) || /^([a-z]:|[\\/~])/i.test(typed))
    return refuse(
      "project/path-absolute",
      `\`${typed}\` is not relative to this file`,
      "write the path from the folder of this file",
    );
  if (typed.includes("\\"))
    return refuse("project/path-backslash", `\`${typed}\` has a backslash`, "write / between folders");
  if (/[\u0000-\u001f\u007f]/.test(typed))
    return refuse("project/path-character", "the path holds a control character", "type the path again");

  const path = resolve(dirname(from), typed);
  const outside = () =>
    refuse(
      "project/path-outside",
      `\`${typed}\` leaves the shop's folder`,
      "keep it in the folder of shop.yaml, or beside the job if there is none",
    );
  if (!isInside(root, path)) return outside();
  const real = io.realPath(path);
  if (real === undefined)
    return refuse(
      "project/file-missing",
      `there is no ${what} \`${typed}\``,
      `paths start at the folder of ${lastPart(from)}`,
    );
  if (!isInside(io.realPath(root) ?? root, real)) return outside();
  return { path, real };
}

/** Reads the plain file, of a sensible size and inside the root, that a file names. */
export function readConfined(
  typed: TypedPath,
  io: Io,
): { readonly path: string; readonly bytes: Uint8Array } | { readonly fault: Diagnostic } {
  const found = confine(typed, io);
  if ("fault" in found) return found;
  const { what, largest, at } = typed;
  const read = loadFile({ real: found.real, name: typed.typed, what, largest }, io);
  return "why" in read ? { fault: { severity: "error", at, ...read.why } } : { path: found.path, bytes: read.bytes };
}

const lastPart = (path: string) => path.split(/[\\/]/).at(-1) ?? path;
