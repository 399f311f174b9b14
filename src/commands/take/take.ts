import { resolve } from "node:path";
import { hasError } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { visibleText } from "../../diagnostics/visible.ts";
import { overlayIo } from "../../io/overlay-io.ts";
import { saveOver } from "../../io/save-over.ts";
import { mergeBench } from "../../job/merge-bench.ts";
import { decodeBytes } from "../../parse/decode-bytes.ts";
import { evaluateJob } from "../../pipeline/evaluate.ts";
import { FILE_LIMITS } from "../../project/limits.ts";
import { decodeText, loadFile } from "../../project/load-file.ts";
import { createLoadContext, loadJob } from "../../project/load-job.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { UsageError } from "../environment.ts";
import { displayPath } from "../find-jobs.ts";
import { report } from "../report.ts";
import { describeImport } from "./describe-import.ts";
import { type Edit, editStage } from "./edit-stage.ts";
import type { RunKeys } from "./find-place.ts";
import { parsePasted } from "./parse-pasted.ts";
import { formatTable, type TableText } from "./table-text.ts";
import { parsePastedOptions, parseRunKeys, type ReadingOptions } from "./take-options.ts";

export type TakeOptions = ReadingOptions &
  RunKeys & {
    readonly into?: string;
    readonly stage?: string;
    readonly newStage?: true;
    readonly replace?: true;
    readonly dryRun?: true;
  };

/** Puts readings into a stage of a job by editing its text; all else stays byte for byte. */
export async function take(readings: string, options: TakeOptions, environment: Environment): Promise<ExitCode> {
  const readingOptions = parsePastedOptions(options);
  const run = parseRunKeys(options);
  const into = requireOption("--into", options.into, "jobs/mine.yaml");
  const stageName = requireOption("--stage", options.stage, "Finished");
  const { io, cwd } = environment;
  const path = resolve(cwd, into);
  const real = io.realPath(path) ?? path;
  const before = loadFile({ real, name: into, what: "file", largest: FILE_LIMITS.yaml }, io);
  if ("why" in before) {
    const at = { file: into, start: 0, end: 0 };
    return reportRefusal([{ severity: "error", ...before.why, at }], new Map(), environment);
  }
  const source = await readSource(readings, environment);
  if ("fault" in source) return reportRefusal([source.fault], new Map(), environment);

  const jobText = decodeText(before.bytes);
  const context = createLoadContext(into, io, cwd);
  const { read, shop, diagnostics } = loadJob(path, jobText, context);
  const { located, sound } = read;
  if (!located) return reportRefusal(diagnostics, context.sources, environment);
  const stage = sound?.stages?.find(({ name }) => name === stageName);
  const { reads = "flow" } = mergeBench(shop?.shop?.bench, sound?.bench, stage?.bench);
  const { pasted, diagnostics: faults } = parsePasted(source.name, source.text, readingOptions, {
    units: read.units,
    reads,
  });
  const sources = new Map([...context.sources, [source.name, source.text]]);
  if (!pasted) return reportRefusal(faults, sources, environment);

  const table = formatTable(pasted.head, pasted.rows);
  const sides = pasted.table.columns.map(({ name }) => name).filter((name) => name === "intake" || name === "exhaust");
  const target = {
    stage: stageName,
    newStage: options.newStage ?? false,
    replace: options.replace ?? false,
    ...(run ? { run } : {}),
  };
  const edited = editStage({ text: jobText, located, tables: read.tables }, target, table.lines, sides);
  if ("fault" in edited) return reportRefusal([edited.fault], sources, environment);
  const { edit } = edited;
  const after = jobText.slice(0, edit.start) + edit.text + jobText.slice(edit.end);

  const known = new Set(evaluateJob(into, {}, io, cwd).diagnostics.map(diagnosticKey));
  const checked = evaluateJob(into, {}, overlayIo(io, real, after), cwd);
  const file = context.nameOf(path);
  const newDiagnostics = checked.diagnostics
    .filter((each) => !known.has(diagnosticKey(each)))
    .map((each) => mapToReadings(each, file, edit, table, source.name));
  const shown = new Map([...checked.sources, [source.name, source.text]]);
  environment.err(`${describeImport(source, pasted).map(visibleText).join("\n")}\n`);
  report(newDiagnostics, shown, environment);
  if (hasError(newDiagnostics)) {
    environment.err(`nothing was written: with these readings \`${visibleText(into)}\` would be refused\n`);
    return 1;
  }
  if (hasError(checked.diagnostics))
    environment.err(`\`${visibleText(into)}\` has faults elsewhere, as before: see headsheet check\n`);
  if (options.dryRun) {
    environment.out(editedLines(after, edit));
    return 0;
  }
  replaceJob(real, before.bytes, after, into, environment);
  environment.out(`${displayPath(cwd, path)}\n`);
  return 0;
}

function requireOption(option: string, typed: string | undefined, example: string): string {
  if (typed === undefined || typed.trim() === "")
    throw new UsageError(`${option} is missing, such as ${option} ${example}`);
  return typed;
}

function reportRefusal(
  diagnostics: readonly Diagnostic[],
  sources: ReadonlyMap<string, string>,
  environment: Environment,
): ExitCode {
  report(diagnostics, sources, environment);
  return 1;
}

/** Identity of a diagnostic without its position, which the edit shifts. */
const diagnosticKey = ({ severity, code, message }: Diagnostic) => JSON.stringify([severity, code, message]);

type ReadingsSource = { readonly name: string; readonly text: string; readonly encoding: string };

/** Reads the readings from a file or standard input. */
async function readSource(
  readings: string,
  environment: Environment,
): Promise<ReadingsSource | { readonly fault: Diagnostic }> {
  const pasted = readings === "-";
  const name = pasted ? "pasted" : readings;
  const fault = (code: Diagnostic["code"], message: string, hint: string) => ({
    fault: { severity: "error", code, message, at: { file: name, start: 0, end: 0 }, hint } as const,
  });
  let bytes: Uint8Array;
  if (pasted) {
    if (!environment.input) throw new UsageError("nothing can be pasted here: name a file");
    if (environment.terminal)
      environment.err("paste the table, then press Ctrl-D on a line of its own (Windows: Ctrl-Z, Enter)\n");
    const got = await environment.input(FILE_LIMITS.readings);
    if (!got)
      return fault(
        "take/too-large",
        `more than ${FILE_LIMITS.readings / 1024} kB were pasted`,
        "paste one table of readings",
      );
    bytes = got;
  } else {
    const path = resolve(environment.cwd, readings);
    const found = loadFile(
      { real: environment.io.realPath(path) ?? path, name, what: "file of readings", largest: FILE_LIMITS.readings },
      environment.io,
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
  // Some old programs end lines with a carriage return alone.
  const text = decoded.text.includes("\n") ? decoded.text : decoded.text.replaceAll("\r", "\n");
  return { name, text, encoding: decoded.encoding };
}

/** Maps a diagnostic inside the inserted table to the readings it came from. */
function mapToReadings(
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

/** The new and changed lines. */
function editedLines(after: string, { start, text }: Edit): string {
  const begin = /^\r?\n/.test(text) ? start + (text[0] === "\r" ? 2 : 1) : after.lastIndexOf("\n", start - 1) + 1;
  return `${after.slice(begin, start + text.length).replaceAll("\r\n", "\n")}\n`;
}

/** Saves the job, if it is still the file that was read. */
function replaceJob(real: string, before: Uint8Array, after: string, into: string, { err }: Environment): void {
  const done = saveOver(real, before, after);
  if (done.kind === "changed")
    throw new UsageError(`\`${into}\` was changed by somebody else just now: nothing was written, try again`);
  if (done.kind === "refused") throw new UsageError(`\`${into}\`: ${done.why}`);
  if (done.otherVersion !== undefined)
    err(
      `another program saved \`${visibleText(into)}\` in the same moment: what it saved is kept beside it as \`${visibleText(done.otherVersion)}\`\n`,
    );
}
