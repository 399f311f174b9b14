import { dirname, isAbsolute, relative, resolve, sep } from "node:path";
import type { Diagnostic, Span } from "../diagnostics/diagnostic.ts";
import { didYouMean } from "../diagnostics/did-you-mean.ts";
import type { Io } from "../io/io.ts";
import { loadFile } from "./load-file.ts";

/** A path typed in a file, and its position. */
export type TypedPath = {
  readonly typed: string;
  /** The file that contains the path, which is relative to its folder. */
  readonly from: string;
  /** The folder to which the path is confined. */
  readonly root: string;
  readonly at: Span;
  /** Kind of file in messages: "readings file". */
  readonly what: string;
  readonly largest: number;
};

/** Whether a path lies below a folder; links in both must be resolved. */
export const isInside = (folder: string, path: string): boolean => {
  const way = relative(folder, path);
  return way !== "" && way !== ".." && !way.startsWith(`..${sep}`) && !isAbsolute(way);
};

/** The path of a file inside its root, as named and with links resolved. */
type Confined = { readonly path: string; readonly real: string } | { readonly fault: Diagnostic };

/** Resolves a path, links included, and refuses it outside the root. */
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
  if (real === undefined) {
    const near = didYouMean(lastPart(path), io.listFolder(dirname(path)));
    const hint = near
      ? `did you mean \`${typed.slice(0, -lastPart(typed).length)}${near}\`?`
      : `paths start at the folder of ${lastPart(from)}`;
    return refuse("project/file-missing", `there is no ${what} \`${typed}\``, hint);
  }
  if (!isInside(io.realPath(root) ?? root, real)) return outside();
  return { path, real };
}

/** Reads a regular file inside the root, up to its size limit. */
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
