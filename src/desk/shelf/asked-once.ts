import type { FileRead, Io } from "../../io/io.ts";
import { sumOf } from "../../io/sum-of.ts";

/**
 * One question to the disk in a line: what is asked, of a file how much of it is read at most, and of which path: `stat /a`,
 * `realPath /a`, `readFile 100 /a`.
 */
export type Question = string;
export type Answered = readonly [question: Question, answer: string];

/** A disk that is asked each thing once: within one run it never changes its mind, and it is known what was asked. */
export type AskedOnce = {
  readonly io: Io;
  /** Runs `work`, and says which questions it asked. */
  readonly during: <T>(work: () => T) => { readonly result: T; readonly questions: readonly Question[] };
  /** What was answered, in short: what it says, and of a file's contents their sum. */
  readonly answer: (question: Question) => string;
  /** Questions with their answers; the very same list as last time where those are the same, for most files of a folder ask alike. */
  readonly answered: (questions: readonly Question[]) => readonly Answered[];
  /**
   * Notes that a plain file stands at a path, and where that really is, as the list of its folder told: to ask the disk takes
   * longer than to read a small file.
   */
  readonly told: (path: string, real: string) => void;
  /**
   * What the file says, in short. Its contents are looked at and let go: whoever wants them afterwards has them read anew.
   * `listed` is as for the disk.
   */
  readonly fileNow: (path: string, largest: number, listed?: boolean) => string;
};

/** Wraps a disk. Contents are kept while the run lasts: an archive of job files is smaller than one photo. */
export function askedOnce(disk: Io): AskedOnce {
  const answers = new Map<Question, unknown>();
  const shorts = new Map<Question, string>();
  const plain = new Set<string>();
  let noted = new Set<Question>();
  const put = (question: Question): unknown => {
    const [ask, path, largest] = inParts(question);
    return ask === "readFile" ? disk.readFile(path, largest, plain.has(path)) : disk[ask](path);
  };
  const ask = (question: Question): unknown => {
    noted.add(question);
    const known = answers.get(question);
    if (known !== undefined || answers.has(question)) return known;
    const answer = put(question);
    answers.set(question, answer);
    return answer;
  };
  const io: Io = {
    ...disk,
    stat: (path) => ask(`stat ${path}`) as ReturnType<Io["stat"]>,
    realPath: (path) => ask(`realPath ${path}`) as ReturnType<Io["realPath"]>,
    readFile: (path, largest) => ask(readingOf(path, largest)) as FileRead,
  };
  const answer = (question: Question) => {
    const short = shorts.get(question) ?? inShort(ask(question));
    shorts.set(question, short);
    return short;
  };
  let latest: readonly Answered[] = [];
  return {
    io,
    during: (work) => {
      noted = new Set();
      const result = work();
      return { result, questions: [...noted] };
    },
    answer,
    answered: (questions) => {
      if (latest.length !== questions.length || latest.some(([question], k) => question !== questions[k]))
        latest = questions.map((question) => [question, answer(question)]);
      return latest;
    },
    told: (path, real) => {
      answers.set(`realPath ${path}`, real);
      plain.add(real);
    },
    fileNow: (path, largest, listed) =>
      answers.has(readingOf(path, largest))
        ? answer(readingOf(path, largest))
        : inShort(disk.readFile(path, largest, listed)),
  };
}

/** The question for a file's contents. */
export const readingOf = (path: string, largest: number): Question => `readFile ${largest} ${path}`;

function inParts(question: Question): readonly [ask: "stat" | "realPath" | "readFile", path: string, largest: number] {
  const asked = question.indexOf(" ");
  const ask = question.slice(0, asked) as "stat" | "realPath" | "readFile";
  if (ask !== "readFile") return [ask, question.slice(asked + 1), 0];
  const size = question.indexOf(" ", asked + 1);
  return [ask, question.slice(size + 1), Number(question.slice(asked + 1, size))];
}

function inShort(answer: unknown): string {
  const { kind, bytes } = (answer ?? {}) as { readonly kind?: string; readonly bytes?: unknown };
  if (kind === "read" && bytes instanceof Uint8Array) return sumOf(bytes);
  return JSON.stringify(answer) ?? "nothing";
}
