import { dirname, isAbsolute, relative, resolve, sep } from "node:path";
import type { Diagnostic, Span } from "../diagnostics/diagnostic.ts";
import type { Io } from "../io/io.ts";

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

export type Confined = { readonly path: string } | { readonly fault: Diagnostic };

/** Resolves a path that a file names: to a plain file of a sensible size inside the root, links followed. */
export function confine({ typed, from, root, at, what, largest }: TypedPath, io: Io): Confined {
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
  const standing = io.stat(real);
  if (standing?.kind === "folder")
    return refuse("project/not-a-file", `\`${typed}\` is a folder`, `name the ${what} in it`);
  if (standing?.kind !== "file")
    return refuse("project/not-a-file", `\`${typed}\` is not a plain file`, `name a ${what}`);
  if (standing.bytes > largest)
    return refuse(
      "project/too-large",
      `\`${typed}\` has ${kilobytes(standing.bytes)}; at most ${kilobytes(largest)} are read`,
      "make it smaller",
    );
  return { path };
}

const isInside = (root: string, path: string): boolean => {
  const way = relative(root, path);
  return way !== "" && way !== ".." && !way.startsWith(`..${sep}`) && !isAbsolute(way);
};

const lastPart = (path: string) => path.split(/[\\/]/).at(-1) ?? path;
const kilobytes = (bytes: number) => `${Math.ceil(bytes / 1024)} kB`;
