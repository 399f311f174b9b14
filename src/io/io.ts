/** Kind and size of an existing path. */
type PathInfo = { readonly kind: "file" | "folder" | "other"; readonly bytes: number };

/** Result of reading a file: its bytes, or why there are none. */
export type FileRead =
  | { readonly kind: "read"; readonly bytes: Uint8Array }
  | { readonly kind: "missing" | "folder" | "other" }
  | { readonly kind: "too-large"; readonly size: number }
  | { readonly kind: "unreadable"; readonly why: string };

/** Read access to the file system. Paths are absolute. */
export type Io = {
  /** Kind and size, links resolved; undefined if the path does not exist or is not accessible. */
  readonly stat: (path: string) => PathInfo | undefined;
  /** The path with links resolved; undefined if it does not exist. */
  readonly realPath: (path: string) => string | undefined;
  /**
   * Reads a regular file of at most `largest` bytes. It is opened once and checked by its descriptor, so that it cannot be
   * replaced between check and read; a link, pipe, socket or device is never read.
   */
  readonly readFile: (path: string, largest: number) => FileRead;
  /** Reads a file of the program itself. */
  readonly readTextFile: (path: string) => string;
  /** Sorted names in a folder; empty if it cannot be read. */
  readonly listFolder: (path: string) => readonly string[];
  /** Entries that are no links, so that their real path is the folder's with the name appended. */
  readonly regularEntries?: (path: string) => ReadonlyMap<string, "file" | "folder">;
  readonly homeFolder: string | undefined;
};
