import { join } from "node:path";
import { isWorldly } from "../io/in-words.ts";
import type { Io } from "../io/io.ts";
import { askAgain, type Question, sumOf } from "../io/watched-io.ts";
import { writeBesideThenRename } from "../io/write-beside-then-rename.ts";

/** A file that was written into the folder, and the sum of its bytes. */
export type Written = { readonly name: string; readonly sum: string };
/** A sheet with the pictures of its pages, if they were asked for. */
export type MadeSheet = Written & { readonly pictures?: readonly Written[] };

/** A job as it was made: all it was made from, what came of it, and what was said of it. */
export type MadeJob = {
  readonly questions: readonly Question[];
  readonly sheets: readonly MadeSheet[];
  readonly warnings: string;
};

/** What stands in a folder of sheets, by job and options. It proves nothing by itself: each entry is held against the disk. */
export type MadeRecord = ReadonlyMap<string, MadeJob>;

const NAME = ".headsheet-made.json";
const LARGEST = 256 * 1024 * 1024;

/** The record of a folder that this same build wrote; empty when there is none, or none that can be read. */
export function readRecord(folder: string, build: string, io: Io): MadeRecord {
  const read = io.readFile(join(folder, NAME), LARGEST);
  if (read.kind !== "read") return new Map();
  try {
    const found = JSON.parse(Buffer.from(read.bytes).toString("utf8")) as { build?: unknown; jobs?: unknown };
    if (found.build !== build || !Array.isArray(found.jobs)) return new Map();
    return new Map((found.jobs as [string, MadeJob][]).filter(([key, job]) => typeof key === "string" && isMade(job)));
  } catch {
    return new Map();
  }
}

/** Adds to a folder's record, keeping what another run added meanwhile and dropping what stands no longer. */
export function addToRecord(folder: string, build: string, fresh: MadeRecord, io: Io): void {
  const standing = new Set(io.listFolder(folder));
  const all = [...new Map([...readRecord(folder, build, io), ...fresh])];
  const jobs = all.filter(([, { sheets }]) => sheets.every(({ name }) => standing.has(name)));
  try {
    writeBesideThenRename(join(folder, NAME), JSON.stringify({ build, jobs }));
  } catch (error) {
    // Without a record the sheets are made again: slower, and nothing else.
    if (!isWorldly(error)) throw error;
  }
}

/** Tells whether all of a job is as it was: every file it was made from, and every file it became. Asks the disk each thing once. */
export function unchangedIn(folder: string, io: Io): (job: MadeJob, pictures: boolean) => boolean {
  const answers = new Map<string, string>();
  const answer = (question: Question) => {
    const [kind, path, , largest] = question;
    const key = `${kind} ${largest ?? ""} ${path}`;
    const known = answers.get(key) ?? askAgain(question, io);
    answers.set(key, known);
    return known;
  };
  const stands = ({ name, sum }: Written) => {
    const read = io.readFile(join(folder, name), LARGEST);
    return read.kind === "read" && sumOf(read.bytes) === sum;
  };
  return ({ questions, sheets }, pictures) => {
    try {
      return (
        questions.every((question) => answer(question) === question[2]) &&
        sheets.every((sheet) => stands(sheet) && (!pictures || (sheet.pictures?.every(stands) ?? false)))
      );
    } catch {
      return false;
    }
  };
}

/** Whether it has the form that we write; a name that leads elsewhere is not ours. */
function isMade(job: MadeJob): boolean {
  const isWritten = (one: Written) =>
    typeof one.sum === "string" && typeof one.name === "string" && !/[/\\]|^\.\.?$/.test(one.name);
  return (
    typeof job.warnings === "string" &&
    job.questions.length > 0 &&
    job.questions.every(([kind, path, answer]) => [kind, path, answer].every((one) => typeof one === "string")) &&
    job.sheets.length > 0 &&
    job.sheets.every((sheet) => isWritten(sheet) && (sheet.pictures ?? []).every(isWritten))
  );
}
