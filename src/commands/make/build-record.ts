import { join } from "node:path";
import { appendToFile } from "../../io/append-to-file.ts";
import type { Io } from "../../io/io.ts";
import { createReplay, type IoQuery } from "../../io/recording-io.ts";
import { sha256 } from "../../io/sha256.ts";
import { isSystemError } from "../../io/system-errors.ts";
import { writeAtomically } from "../../io/write-atomically.ts";
import type { JobIssue } from "../issued/check-issue.ts";

/** An output file and the SHA-256 of its bytes. */
export type OutputFile = { readonly name: string; readonly sum: string };
/** A sheet and, with `--png`, its page pictures. */
export type SheetRecord = OutputFile & { readonly pictures?: readonly OutputFile[] };

/** Record of one job: the file queries it depends on, its output files and its warnings. */
export type JobRecord = {
  readonly queries: readonly IoQuery[];
  readonly sheets: readonly SheetRecord[];
  readonly warnings: string;
  /** What it issued, and in which register; absent for a draft. */
  readonly issue?: IssueRecord;
};
export type IssueRecord = Pick<JobIssue, "register" | "ticket" | "revision" | "mark" | "figures">;

/** Records by key of job and options; each is checked against the files before it is used. */
export type BuildRecord = ReadonlyMap<string, JobRecord>;

const RECORD_FILE = ".headsheet-made.json";
const MAX_BYTES = 256 * 1024 * 1024;

/** Reads the records of this build from a folder; skips a line that was cut short. */
export function readBuildRecord(folder: string, build: string, io: Io): BuildRecord {
  const read = io.readFile(join(folder, RECORD_FILE), MAX_BYTES);
  if (read.kind !== "read") return new Map();
  const lines = Buffer.from(read.bytes).toString("utf8").split("\n");
  return new Map(
    lines.flatMap((line): [string, JobRecord][] => {
      try {
        const parsed = JSON.parse(line) as RecordLine;
        return parsed.build === build && typeof parsed.key === "string" && isJobRecord(parsed.job)
          ? [[parsed.key, parsed.job]]
          : [];
      } catch {
        return [];
      }
    }),
  );
}

/** One line of the file; lines of several builds may alternate. */
type RecordLine = { readonly build: string; readonly key: string; readonly job: JobRecord };
const serializeLine = (line: RecordLine) => `${JSON.stringify(line)}\n`;

/**
 * Returns a function that records each job as it is finished, so that a stopped batch can resume. The first call rewrites the
 * file with the entries that are still current, among them those of a concurrent run; later calls append a line. Write errors are ignored: the
 * next batch only makes its sheets again.
 */
export function openBuildRecord(folder: string, build: string, io: Io): (key: string, job: JobRecord) => void {
  const path = join(folder, RECORD_FILE);
  let started = false;
  return (key, job) => {
    try {
      if (started) appendToFile(path, serializeLine({ build, key, job }));
      else
        writeAtomically(
          path,
          [...readCurrentEntries(folder, build, io).set(key, job)]
            .map(([k, j]) => serializeLine({ build, key: k, job: j }))
            .join(""),
        );
      started = true;
    } catch (error) {
      if (!isSystemError(error)) throw error;
    }
  };
}

/** Entries whose sheets still exist. */
function readCurrentEntries(folder: string, build: string, io: Io): Map<string, JobRecord> {
  const existing = new Set(io.listFolder(folder));
  return new Map(
    [...readBuildRecord(folder, build, io)].filter(([, { sheets }]) => sheets.every(({ name }) => existing.has(name))),
  );
}

/** Returns a check of whether a job's input files and output files are unchanged. */
export function upToDateCheck(folder: string, io: Io): (job: JobRecord, pictures: boolean) => boolean {
  const sameResults = createReplay(io);
  const isUnchanged = ({ name, sum }: OutputFile) => {
    const read = io.readFile(join(folder, name), MAX_BYTES);
    return read.kind === "read" && sha256(read.bytes) === sum;
  };
  return ({ queries, sheets }, pictures) => {
    try {
      return (
        sameResults(queries) &&
        sheets.every((sheet) => isUnchanged(sheet) && (!pictures || (sheet.pictures?.every(isUnchanged) ?? false)))
      );
    } catch {
      return false;
    }
  };
}

/** Validates a parsed entry; file names with a path are refused. */
function isJobRecord(job: JobRecord): boolean {
  const isOutputFile = (one: OutputFile) =>
    typeof one.sum === "string" && typeof one.name === "string" && !/[/\\]|^\.\.?$/.test(one.name);
  return (
    typeof job.warnings === "string" &&
    job.queries.length > 0 &&
    job.queries.every(([kind, path, result]) => [kind, path, result].every((one) => typeof one === "string")) &&
    job.sheets.length > 0 &&
    job.sheets.every((sheet) => isOutputFile(sheet) && (sheet.pictures ?? []).every(isOutputFile)) &&
    (job.issue === undefined ||
      [job.issue.register, job.issue.ticket, job.issue.revision, job.issue.mark].every(
        (one) => typeof one === "string",
      ))
  );
}
