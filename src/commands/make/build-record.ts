import { join } from "node:path";
import { appendToFile } from "../../io/append-to-file.ts";
import type { Io } from "../../io/io.ts";
import { createReplay, type IoQuery } from "../../io/recording-io.ts";
import { sha256Hex } from "../../io/sha256.ts";
import { isSystemError } from "../../io/system-errors.ts";
import { writeAtomically } from "../../io/write-atomically.ts";

/** A file that was written into the folder, and the sum of its bytes. */
export type Written = { readonly name: string; readonly sum: string };
/** A sheet with the pictures of its pages, if they were asked for. */
export type MadeSheet = Written & { readonly pictures?: readonly Written[] };

/** A job as it was made: all it was made from, what came of it, and what was said of it. */
export type MadeJob = {
  readonly queries: readonly IoQuery[];
  readonly sheets: readonly MadeSheet[];
  readonly warnings: string;
};

/** What stands in a folder of sheets, by job and options. It proves nothing by itself: each entry is held against the disk. */
export type BuildRecord = ReadonlyMap<string, MadeJob>;

const NAME = ".headsheet-made.json";
const LARGEST = 256 * 1024 * 1024;

/** The record of a folder as this same build wrote it; empty when there is none. A line cut short by a kill is passed over. */
export function readRecord(folder: string, build: string, io: Io): BuildRecord {
  const read = io.readFile(join(folder, NAME), LARGEST);
  if (read.kind !== "read") return new Map();
  const lines = Buffer.from(read.bytes).toString("utf8").split("\n");
  return new Map(
    lines.flatMap((line): [string, MadeJob][] => {
      try {
        const found = JSON.parse(line) as Line;
        return found.build === build && typeof found.key === "string" && isMade(found.job)
          ? [[found.key, found.job]]
          : [];
      } catch {
        return [];
      }
    }),
  );
}

/** One job, with the build that made it: another build's lines may come between. */
type Line = { readonly build: string; readonly key: string; readonly job: MadeJob };
const lineOf = (line: Line) => `${JSON.stringify(line)}\n`;

/**
 * Keeps a folder's record up while a batch runs, so that one that is stopped goes on where it was. The first job writes the file
 * anew, with what another run noted meanwhile and without what stands no longer; each further one adds its line. Without a record
 * sheets are made again: a disk that will not take it makes the next batch slower, and nothing else.
 */
export function openBuildRecord(folder: string, build: string, io: Io): (key: string, job: MadeJob) => void {
  const path = join(folder, NAME);
  let begun = false;
  return (key, job) => {
    try {
      if (begun) appendToFile(path, lineOf({ build, key, job }));
      else
        writeAtomically(
          path,
          [...standingIn(folder, build, io).set(key, job)].map(([k, j]) => lineOf({ build, key: k, job: j })).join(""),
        );
      begun = true;
    } catch (error) {
      if (!isSystemError(error)) throw error;
    }
  };
}

/** What a record says of sheets that stand. */
function standingIn(folder: string, build: string, io: Io): Map<string, MadeJob> {
  const standing = new Set(io.listFolder(folder));
  return new Map(
    [...readRecord(folder, build, io)].filter(([, { sheets }]) => sheets.every(({ name }) => standing.has(name))),
  );
}

/** Tells whether all of a job is as it was: every file it was made from, and every file it became. */
export function upToDateCheck(folder: string, io: Io): (job: MadeJob, pictures: boolean) => boolean {
  const sameResults = createReplay(io);
  const stands = ({ name, sum }: Written) => {
    const read = io.readFile(join(folder, name), LARGEST);
    return read.kind === "read" && sha256Hex(read.bytes) === sum;
  };
  return ({ queries, sheets }, pictures) => {
    try {
      return (
        sameResults(queries) &&
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
    job.queries.length > 0 &&
    job.queries.every(([kind, path, result]) => [kind, path, result].every((one) => typeof one === "string")) &&
    job.sheets.length > 0 &&
    job.sheets.every((sheet) => isWritten(sheet) && (sheet.pictures ?? []).every(isWritten))
  );
}
