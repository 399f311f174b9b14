import { dirname, resolve } from "node:path";
import { hasError } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { visible } from "../../diagnostics/visible.ts";
import type { Io } from "../../io/io.ts";
import { overlayIo } from "../../io/overlay-io.ts";
import { removeStaleTempFiles } from "../../io/temporary-file.ts";
import { writeAtomically } from "../../io/write-atomically.ts";
import { mergeBench } from "../../job/merge-bench.ts";
import { decodeBytes } from "../../parse/decode-bytes.ts";
import { evaluateJob } from "../../pipeline/evaluate.ts";
import { FILE_LIMITS } from "../../project/limits.ts";
import { loadFile, textOf } from "../../project/load-file.ts";
import { loadJob, notebook } from "../../project/load-job.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { shortest } from "../find-jobs.ts";
import { report } from "../report.ts";
import { UsageError } from "../usage-error.ts";
import { describeImport } from "./describe-import.ts";
import { type Edit, editStage } from "./edit-stage.ts";
import type { RunKeys } from "./find-place.ts";
import { readPasted } from "./parse-pasted.ts";
import { type TableText, tableText } from "./table-text.ts";
import { pastedOptions, type ReadingOptions, runKeys } from "./take-options.ts";

export type TakeOptions = ReadingOptions &
  RunKeys & {
    readonly into?: string;
    readonly stage?: string;
    readonly newStage?: true;
    readonly replace?: true;
    readonly dryRun?: true;
  };

/** Puts readings into a stage of a job: the text of the job is edited, never written out anew. */
export async function take(readings: string, options: TakeOptions, world: Environment): Promise<ExitCode> {
  const asked = pastedOptions(options);
  const run = runKeys(options);
  const into = stated("--into", options.into, "jobs/mine.yaml");
  const stageName = stated("--stage", options.stage, "Finished");
  const { io, cwd } = world;
  const path = resolve(cwd, into);
  const real = io.realPath(path) ?? path;
  const before = loadFile({ real, name: into, what: "file", largest: FILE_LIMITS.yaml }, io);
  if ("why" in before) return said([{ severity: "error", ...before.why }], new Map(), world);
  const source = await sourceOf(readings, world);
  if ("fault" in source) return said([source.fault], new Map(), world);

  const jobText = textOf(before.bytes);
  const book = notebook(into, io, cwd);
  const { read, shop, diagnostics } = loadJob(path, jobText, book);
  const { located, sound } = read;
  if (!located) return said(diagnostics, book.sources, world);
  const stage = sound?.stages?.find(({ name }) => name === stageName);
  const { reads = "flow" } = mergeBench(shop?.shop?.bench, sound?.bench, stage?.bench);
  const { pasted, diagnostics: faults } = readPasted(source.name, source.text, asked, { units: read.units, reads });
  const sources = new Map([...book.sources, [source.name, source.text]]);
  if (!pasted) return said(faults, sources, world);

  const table = tableText(pasted.head, pasted.rows);
  const sides = pasted.table.columns.map(({ name }) => name).filter((name) => name === "intake" || name === "exhaust");
  const target = {
    stage: stageName,
    newStage: options.newStage ?? false,
    replace: options.replace ?? false,
    ...(run ? { run } : {}),
  };
  const edited = editStage({ text: jobText, located, tables: read.tables }, target, table.lines, sides);
  if ("fault" in edited) return said([edited.fault], sources, world);
  const { edit } = edited;
  const after = jobText.slice(0, edit.start) + edit.text + jobText.slice(edit.end);

  const known = new Set(evaluateJob(into, {}, io, cwd).diagnostics.map(keyOf));
  const checked = evaluateJob(into, {}, overlayIo(io, real, after), cwd);
  const file = book.nameOf(path);
  const fresh = checked.diagnostics
    .filter((each) => !known.has(keyOf(each)))
    .map((each) => inReadings(each, file, edit, table, source.name));
  const shown = new Map([...checked.sources, [source.name, source.text]]);
  world.err(`${describeImport(source, pasted).map(visible).join("\n")}\n`);
  report(fresh, shown, world);
  if (hasError(fresh)) {
    world.err(`nothing was written: with these readings \`${visible(into)}\` would be refused\n`);
    return 1;
  }
  if (hasError(checked.diagnostics))
    world.err(`\`${visible(into)}\` has faults elsewhere, as before: see headsheet check\n`);
  if (options.dryRun) {
    world.out(editedLines(after, edit));
    return 0;
  }
  write(real, before.bytes, after, into, io);
  world.out(`${shortest(cwd, path)}\n`);
  return 0;
}

function stated(option: string, typed: string | undefined, example: string): string {
  if (typed === undefined || typed.trim() === "")
    throw new UsageError(`${option} is missing, such as ${option} ${example}`);
  return typed;
}

function said(diagnostics: readonly Diagnostic[], sources: ReadonlyMap<string, string>, world: Environment): ExitCode {
  report(diagnostics, sources, world);
  return 1;
}

/** What is wrong, wherever it stands: an edit moves what is below it. */
const keyOf = ({ severity, code, message }: Diagnostic) => JSON.stringify([severity, code, message]);

type Source = { readonly name: string; readonly text: string; readonly encoding: string };

/** The text of the readings, from a file or from what is pasted. */
async function sourceOf(readings: string, world: Environment): Promise<Source | { readonly fault: Diagnostic }> {
  const pasted = readings === "-";
  const name = pasted ? "pasted" : readings;
  const fault = (code: Diagnostic["code"], message: string, hint: string) => ({
    fault: { severity: "error", code, message, hint } as const,
  });
  let bytes: Uint8Array;
  if (pasted) {
    if (!world.input) throw new UsageError("nothing can be pasted here: name a file");
    if (world.terminal) world.err("paste the table, then press Ctrl-D on a line of its own (Windows: Ctrl-Z, Enter)\n");
    const got = await world.input(FILE_LIMITS.readings);
    if (!got)
      return fault(
        "take/too-large",
        `more than ${FILE_LIMITS.readings / 1024} kB were pasted`,
        "paste one table of readings",
      );
    bytes = got;
  } else {
    const path = resolve(world.cwd, readings);
    const found = loadFile(
      { real: world.io.realPath(path) ?? path, name, what: "file of readings", largest: FILE_LIMITS.readings },
      world.io,
    );
    if ("why" in found) return fault(found.why.code, found.why.message, found.why.hint);
    bytes = found.bytes;
  }
  const decoded = decodeBytes(bytes);
  if (decoded.kind === "other")
    return fault(
      "take/not-a-text",
      `\`${name}\` is ${decoded.what}`,
      "save the table as CSV or text, or copy its cells and paste them: headsheet take - …",
    );
  // Old programs end lines with a carriage return alone.
  const text = decoded.text.includes("\n") ? decoded.text : decoded.text.replaceAll("\r", "\n");
  return { name, text, encoding: decoded.encoding };
}

/** A fault in the table that was put in stands, for people, in the readings it came from. */
function inReadings(
  diagnostic: Diagnostic,
  file: string,
  edit: Edit,
  { cells }: TableText,
  readings: string,
): Diagnostic {
  const { at } = diagnostic;
  if (at?.file !== file || at.start < edit.start || at.start > edit.start + edit.text.length) return diagnostic;
  const offset = at.start - edit.start;
  const line = edit.lines.findLastIndex((start) => start <= offset);
  const column = offset - (edit.lines[line] ?? 0);
  const inLine = cells.filter((cell) => cell.line === line);
  const from = (inLine.findLast((cell) => cell.start <= column) ?? inLine[0])?.from;
  return from ? { ...diagnostic, at: { file: readings, start: from.start, end: from.end } } : diagnostic;
}

/** The lines that are new or changed. */
function editedLines(after: string, { start, text }: Edit): string {
  const begin = /^\r?\n/.test(text) ? start + (text[0] === "\r" ? 2 : 1) : after.lastIndexOf("\n", start - 1) + 1;
  return `${after.slice(begin, start + text.length).replaceAll("\r\n", "\n")}\n`;
}

/** Written whole or not at all, where the job itself stands, and only over what was read. */
function write(real: string, before: Uint8Array, after: string, name: string, io: Io): void {
  removeStaleTempFiles(dirname(real));
  const now = io.readFile(real, FILE_LIMITS.yaml);
  if (now.kind !== "read" || Buffer.compare(now.bytes, before) !== 0)
    throw new UsageError(`\`${name}\` was changed by somebody else just now: nothing was written, try again`);
  writeAtomically(real, after);
}
