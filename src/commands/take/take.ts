import { resolve } from "node:path";
import { hasError } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { visibleText } from "../../diagnostics/visible.ts";
import { overlayIo } from "../../io/overlay-io.ts";
import { saveOver } from "../../io/save-over.ts";
import { mergeBench } from "../../job/merge-bench.ts";
import { evaluateJob } from "../../pipeline/evaluate.ts";
import { FILE_LIMITS } from "../../project/limits.ts";
import { decodeText, loadFile } from "../../project/load-file.ts";
import { createLoadContext, loadJob } from "../../project/load-job.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { UsageError } from "../environment.ts";
import { displayPath } from "../find-jobs.ts";
import { report } from "../report.ts";
import { describeImport } from "./describe-import.ts";
import { type Edit, editStage, editValves } from "./edit-stage.ts";
import type { RunKeys, Target } from "./find-place.ts";
import { parsePasted } from "./parse-pasted.ts";
import { parseValves } from "./parse-valves.ts";
import { type ReadingsSource, readSource } from "./read-source.ts";
import { formatTable, type TableText } from "./table-text.ts";
import { type PastedOptions, parsePastedOptions, parseRunKeys, type ReadingOptions } from "./take-options.ts";

export type TakeOptions = ReadingOptions &
  RunKeys & {
    readonly into?: string;
    /** One, or the stages before and after. */
    readonly stage?: readonly string[];
    readonly newStage?: true;
    readonly replace?: true;
    readonly dryRun?: true;
  };

/** Puts readings, or a table of the valves, into a stage of a job, or readings into two, by editing its text; all else stays byte for byte. */
export async function take(readings: string, options: TakeOptions, environment: Environment): Promise<ExitCode> {
  const steps = readSteps(options);
  const into = requireOption("--into", options.into, "jobs/mine.yaml");
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

  let after = decodeText(before.bytes);
  let edits: readonly TakenEdit[] = [];
  for (const step of steps) {
    const taken = takeStep(step, source, { into, path, text: after }, environment);
    if ("refused" in taken) return reportRefusal(taken.refused, taken.sources, environment);
    const { edit } = taken;
    after = after.slice(0, edit.start) + edit.text + after.slice(edit.end);
    edits = [...edits.map((one) => ({ ...one, edit: shiftEdit(one.edit, edit) })), taken];
  }

  const known = new Set(evaluateJob(into, {}, io, cwd).diagnostics.map(diagnosticKey));
  const checked = evaluateJob(into, {}, overlayIo(io, real, after), cwd);
  const file = createLoadContext(into, io, cwd).nameOf(path);
  const newDiagnostics = checked.diagnostics
    .filter((each) => !known.has(diagnosticKey(each)))
    .map((each) => edits.reduce((one, { edit, table }) => mapToReadings(one, file, edit, table, source.name), each));
  const shown = new Map([...checked.sources, [source.name, source.text]]);
  for (const { said } of edits) environment.err(`${said.map(visibleText).join("\n")}\n`);
  report(newDiagnostics, shown, environment);
  if (hasError(newDiagnostics)) {
    environment.err(`nothing was written: with these readings \`${visibleText(into)}\` would be refused\n`);
    return 1;
  }
  if (hasError(checked.diagnostics))
    environment.err(`\`${visibleText(into)}\` has faults elsewhere, as before: see headsheet check\n`);
  if (options.dryRun) {
    environment.out(edits.map(({ edit }) => editedLines(after, edit)).join(""));
    return 0;
  }
  replaceJob(real, before.bytes, after, into, environment);
  environment.out(`${displayPath(cwd, path)}\n`);
  return 0;
}

/** How one stage is taken: of two stages the first is the one before the work. */
type Step = { readonly reading: PastedOptions; readonly target: Target; readonly ifNew: boolean };

function readSteps(options: TakeOptions): readonly Step[] {
  const reading = parsePastedOptions(options);
  const run = parseRunKeys(options);
  const stages = (options.stage ?? []).filter((name) => name.trim() !== "");
  requireOption("--stage", stages[0], "Finished");
  if (stages.length > 2) throw new UsageError("--stage is given at most twice: the stage before, and the one after");
  if (stages.length === 2 && stages[0] === stages[1]) throw new UsageError("--stage names the same stage twice");
  return stages.map((stage, index) => ({
    reading: { ...reading, ...(stages.length === 2 && ({ when: index === 0 ? "before" : "after" } as const)) },
    target: { stage, newStage: options.newStage ?? false, replace: options.replace ?? false, ...(run ? { run } : {}) },
    ifNew: stages.length === 2,
  }));
}

/** An edit of the job, its table, and how its readings were understood. */
type TakenEdit = { readonly edit: Edit; readonly table: TableText; readonly said: readonly string[] };
type Refused = { readonly refused: readonly Diagnostic[]; readonly sources: ReadonlyMap<string, string> };

function takeStep(
  { reading, target, ifNew }: Step,
  source: ReadingsSource,
  { into, path, text }: { readonly into: string; readonly path: string; readonly text: string },
  { io, cwd }: Environment,
): TakenEdit | Refused {
  const context = createLoadContext(into, io, cwd);
  const { read, shop, diagnostics } = loadJob(path, text, context);
  const { located, sound } = read;
  if (!located) return { refused: diagnostics, sources: context.sources };
  const given = parseValves(source.name, source.text, reading.delimiter);
  if (given) {
    const sources = new Map([...context.sources, [source.name, source.text]]);
    if (!given.valves) return { refused: given.diagnostics, sources };
    const table = formatTable(given.valves.head, given.valves.rows);
    const edited = editValves({ text, located, tables: read.tables }, target, table.lines);
    return "fault" in edited
      ? { refused: [edited.fault], sources }
      : { edit: edited.edit, table, said: given.valves.said };
  }
  const stage = sound?.stages?.find(({ name }) => name === target.stage);
  const { reads = "flow" } = mergeBench(shop?.shop?.bench, sound?.bench, stage?.bench);
  const { pasted, diagnostics: faults } = parsePasted(source.name, source.text, reading, { units: read.units, reads });
  const sources = new Map([...context.sources, [source.name, source.text]]);
  if (!pasted) return { refused: faults, sources };
  const table = formatTable(pasted.head, pasted.rows);
  const sides = pasted.table.columns.map(({ name }) => name).filter((name) => name === "intake" || name === "exhaust");
  // Of two stages one may be there already.
  const aim = ifNew && stage ? { ...target, newStage: false } : target;
  const edited = editStage({ text, located, tables: read.tables }, aim, table.lines, sides);
  if ("fault" in edited) return { refused: [edited.fault], sources };
  const said = describeImport(source, pasted);
  return { edit: edited.edit, table, said: ifNew ? [...said, `  into \`${target.stage}\``] : said };
}

/** An earlier edit, moved by a later one that stands before it. */
const shiftEdit = (earlier: Edit, later: Edit): Edit => {
  if (later.start > earlier.start) return earlier;
  const by = later.text.length - (later.end - later.start);
  return { ...earlier, start: earlier.start + by, end: earlier.end + by };
};

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
