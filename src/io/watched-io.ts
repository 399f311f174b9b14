import type { Io } from "./io.ts";
import { sumOf } from "./sum-of.ts";

/** One question that was put to the disk, and a short form of its answer. */
export type Question = readonly [
  kind: "stat" | "realPath" | "read" | "text" | "list",
  path: string,
  answer: string,
  largest?: number,
];

/** A disk that notes all it is asked: the same answers again mean the same work with the same result. */
export function watched(io: Io): { readonly io: Io; readonly questions: () => readonly Question[] } {
  const noted = new Map<string, Question>();
  const note = (question: Question) => {
    const [kind, path, , largest] = question;
    noted.set(`${kind} ${largest ?? ""} ${path}`, question);
  };
  return {
    io: {
      homeFolder: io.homeFolder,
      stat: (path) => {
        const found = io.stat(path);
        note(["stat", path, ofStanding(found)]);
        return found;
      },
      realPath: (path) => {
        const found = io.realPath(path);
        note(["realPath", path, found ?? ""]);
        return found;
      },
      readFile: (path, largest) => {
        const read = io.readFile(path, largest);
        note(["read", path, ofRead(read), largest]);
        return read;
      },
      readTextFile: (path) => {
        const text = io.readTextFile(path);
        note(["text", path, sumOf(text)]);
        return text;
      },
      listFolder: (path) => {
        const names = io.listFolder(path);
        note(["list", path, sumOf(names.join("\0"))]);
        return names;
      },
    },
    questions: () => [...noted.values()],
  };
}

/** What the disk says to a question now; it throws where the disk does. */
export function askAgain([kind, path, , largest = 0]: Question, io: Io): string {
  switch (kind) {
    case "stat":
      return ofStanding(io.stat(path));
    case "realPath":
      return io.realPath(path) ?? "";
    case "read":
      return ofRead(io.readFile(path, largest));
    case "text":
      return sumOf(io.readTextFile(path));
    case "list":
      return sumOf(io.listFolder(path).join("\0"));
  }
}

/** A folder's size says how its disk keeps it, not what is in it. */
const ofStanding = (found: ReturnType<Io["stat"]>): string =>
  found === undefined ? "" : found.kind === "file" ? `file ${found.bytes}` : found.kind;

const ofRead = (read: ReturnType<Io["readFile"]>): string => (read.kind === "read" ? sumOf(read.bytes) : read.kind);
