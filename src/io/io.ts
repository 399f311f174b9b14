/** What stands at a path. */
export type Standing = { readonly kind: "file" | "folder" | "other"; readonly bytes: number };

/** What came of reading a file: its bytes, or why there are none. */
export type FileRead =
  | { readonly kind: "read"; readonly bytes: Uint8Array }
  | { readonly kind: "missing" | "folder" | "other" }
  | { readonly kind: "too-large"; readonly size: number }
  | { readonly kind: "unreadable"; readonly why: string };

/** The files of the world, as far as a project reads them. Paths are absolute. */
export type Io = {
  /** What stands there, links followed; undefined when nothing does or it may not be seen. */
  readonly stat: (path: string) => Standing | undefined;
  /** The path without links; undefined when nothing stands there. */
  readonly realPath: (path: string) => string | undefined;
  /**
   * Reads a plain file of at most `largest` bytes. It is opened once and looked at by what was opened, so that nothing can be
   * put in its place between the look and the reading; a link, pipe, socket or device at the path is never read.
   */
  readonly readFile: (path: string, largest: number) => FileRead;
  /** Reads one of the program's own files. */
  readonly readTextFile: (path: string) => string;
  /** Names in a folder, sorted; empty when it cannot be read. */
  readonly listFolder: (path: string) => readonly string[];
  /** Those names in a folder that are a file or a folder themselves and no link: their real paths are the folder's with the name. */
  readonly regularEntries?: (path: string) => ReadonlyMap<string, "file" | "folder">;
  readonly homeFolder: string | undefined;
};
