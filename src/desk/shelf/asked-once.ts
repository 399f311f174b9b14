import { createHash } from "node:crypto";
import { join } from "node:path";
import type { Io } from "../../io/io.ts";

/** One question to the disk: what is asked, of which path, and of a file how much of it is read at most. */
export type Question = readonly [ask: "stat" | "realPath" | "readFile", path: string, largest?: number];

/** A disk that is asked each thing once: within one run it never changes its mind, and it is known what was asked. */
export type AskedOnce = {
  readonly io: Io;
  /** Runs `work`, and says which questions it asked. */
  readonly during: <T>(work: () => T) => { readonly result: T; readonly questions: readonly Question[] };
  /** The answer in short: what it says, and of a file's contents their digest. */
  readonly answer: (question: Question) => string;
};

/** Wraps a disk. Contents are kept while the run lasts: an archive of job files is smaller than one photo. */
export function askedOnce(disk: Io): AskedOnce {
  const answers = new Map<string, unknown>();
  const digests = new Map<string, string>();
  let noted = new Map<string, Question>();
  const ask = (question: Question): unknown => {
    const key = keyOf(question);
    noted.set(key, question);
    const known = answers.get(key);
    if (known !== undefined || answers.has(key)) return known;
    const [what, path, largest = 0] = question;
    const answer = what === "readFile" ? disk.readFile(path, largest) : disk[what](path);
    answers.set(key, answer);
    return answer;
  };
  const { plainIn } = disk;
  const io: Io = {
    ...disk,
    ...(plainIn && {
      plainIn: (path) => {
        const found = plainIn(path);
        const real = ask(["realPath", path]);
        if (typeof real === "string")
          for (const [name, kind] of found)
            if (kind === "file") answers.set(keyOf(["realPath", join(path, name)]), join(real, name));
        return found;
      },
    }),
    stat: (path) => ask(["stat", path]) as ReturnType<Io["stat"]>,
    realPath: (path) => ask(["realPath", path]) as ReturnType<Io["realPath"]>,
    readFile: (path, largest) => ask(["readFile", path, largest]) as ReturnType<Io["readFile"]>,
  };
  return {
    io,
    during: (work) => {
      noted = new Map();
      const result = work();
      return { result, questions: [...noted.values()] };
    },
    answer: (question) => {
      const key = keyOf(question);
      const digest = digests.get(key) ?? inShort(ask(question));
      digests.set(key, digest);
      return digest;
    },
  };
}

const keyOf = (question: Question) => question.join(" ");

function inShort(answer: unknown): string {
  const { kind, bytes } = (answer ?? {}) as { readonly kind?: string; readonly bytes?: unknown };
  if (kind === "read" && bytes instanceof Uint8Array) return createHash("sha256").update(bytes).digest("base64url");
  return JSON.stringify(answer) ?? "nothing";
}
