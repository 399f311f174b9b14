/** What stands at a path. */
export type Standing = { readonly kind: "file" | "folder" | "other"; readonly bytes: number };

/** The files of the world, as far as a project reads them. Paths are absolute. */
export type Io = {
  /** What stands there, links followed; undefined when nothing does or it may not be seen. */
  readonly stat: (path: string) => Standing | undefined;
  /** The path without links; undefined when nothing stands there. */
  readonly realPath: (path: string) => string | undefined;
  readonly readTextFile: (path: string) => string;
  readonly readBytes: (path: string) => Uint8Array;
  /** Names in a folder, sorted; empty when it cannot be read. */
  readonly listFolder: (path: string) => readonly string[];
  readonly homeFolder: string | undefined;
};
