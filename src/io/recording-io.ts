import type { Io } from "./io.ts";
import { sha256 } from "./sha256.ts";

type Kind = "stat" | "realPath" | "read" | "text" | "list";

/** A query of the file system with a digest of its result; for a read also its size limit. */
export type IoQuery = readonly [kind: Kind, path: string, result: string, largest?: number];

/**
 * Records every file query with a digest of its result: equal digests later mean an equal outcome. Calls `onQuery` with each path
 * before it is read, except those of the program's own files.
 */
export function recordIo(
  io: Io,
  onQuery: (path: string) => void = () => {},
): { readonly io: Io; readonly queries: () => readonly IoQuery[] } {
  const recorded = new Map<string, IoQuery>();
  const record = <T>(kind: Kind, path: string, run: () => T, largest?: number): T => {
    if (kind !== "text") onQuery(path);
    const result = run();
    const digest = DIGESTS[kind](result as never);
    const query: IoQuery = largest === undefined ? [kind, path, digest] : [kind, path, digest, largest];
    recorded.set(keyOf(query), query);
    return result;
  };
  return {
    io: {
      homeFolder: io.homeFolder,
      stat: (path) => record("stat", path, () => io.stat(path)),
      realPath: (path) => record("realPath", path, () => io.realPath(path)),
      readFile: (path, largest) => record("read", path, () => io.readFile(path, largest), largest),
      readTextFile: (path) => record("text", path, () => io.readTextFile(path)),
      listFolder: (path) => record("list", path, () => io.listFolder(path)),
    },
    queries: () => [...recorded.values()],
  };
}

/** Returns a check whether recorded queries still give equal results. Runs each distinct query once. */
export function createReplay(io: Io): (queries: readonly IoQuery[]) => boolean {
  const results = new Map<string, string | undefined>();
  const resultNow = (query: IoQuery): string | undefined => {
    const key = keyOf(query);
    if (!results.has(key)) results.set(key, replayQuery(query, io));
    return results.get(key);
  };
  return (queries) => queries.every((query) => resultNow(query) === query[2]);
}

/** The result of a query now; undefined where it fails. */
function replayQuery([kind, path, , largest = 0]: IoQuery, io: Io): string | undefined {
  try {
    switch (kind) {
      case "stat":
        return DIGESTS.stat(io.stat(path));
      case "realPath":
        return DIGESTS.realPath(io.realPath(path));
      case "read":
        return DIGESTS.read(io.readFile(path, largest));
      case "text":
        return DIGESTS.text(io.readTextFile(path));
      case "list":
        return DIGESTS.list(io.listFolder(path));
    }
  } catch {
    return undefined;
  }
}

const keyOf = ([kind, path, , largest]: IoQuery) => `${kind} ${largest ?? ""} ${path}`;

const DIGESTS = {
  // The size of a folder depends on its file system, not on its contents.
  stat: (found: ReturnType<Io["stat"]>) =>
    found === undefined ? "" : found.kind === "file" ? `file ${found.bytes}` : found.kind,
  realPath: (found: ReturnType<Io["realPath"]>) => found ?? "",
  read: (read: ReturnType<Io["readFile"]>) => (read.kind === "read" ? sha256(read.bytes) : read.kind),
  text: (text: string) => sha256(text),
  list: (names: readonly string[]) => sha256(names.join("\0")),
};
