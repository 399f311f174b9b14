import type { Diagnostic, Span } from "../../diagnostics/diagnostic.ts";
import { didYouMean } from "../../diagnostics/did-you-mean.ts";
import type { RunTable } from "../../job/readings/run-tables.ts";
import { type Path, type SourceDocument, valueAt, type YamlValue } from "../../parse/yaml/source-document.ts";

/** The stage, or the run of it, into which the readings are written. */
export type Target = {
  readonly stage: string;
  readonly newStage: boolean;
  readonly replace: boolean;
  /** Keys that identify the run; undefined where the readings stand in the stage itself. */
  readonly run?: RunKeys;
};
export type RunKeys = Readonly<Partial<Record<"cylinder" | "set" | "mount" | "hand", string>>>;
export const RUN_KEYS = ["cylinder", "set", "mount", "hand"] as const;
const RUN_DEFAULTS: RunKeys = { cylinder: "1", mount: "1" };

export type EditableJob = {
  readonly text: string;
  readonly located: SourceDocument;
  readonly tables: readonly RunTable[];
};

/** Place of a table: an existing `flow`, or the structure still to be written around it. */
export type Place =
  | { readonly kind: "flow"; readonly owner: Path }
  | { readonly kind: "first run" | "new run"; readonly stage: Path }
  | { readonly kind: "new stage" };
type PlaceError = { readonly fault: Diagnostic };
type PlaceResult = { readonly place: Place } | PlaceError;

/** Keys of a stage that hold a table. */
export type TableKey = "flow" | "valve_train";

/** Finds the place of a table; `sides` are the table's columns of flow. */
export function findPlace(job: EditableJob, target: Target, sides: readonly string[]): PlaceResult {
  const found = findStage(job, target);
  if ("fault" in found) return found;
  if (!found.stage) {
    const stages = listAt(job.located, ["stages"]);
    const bracketError = stages.length > 0 ? checkBrackets(job, ["stages"], "`stages`") : undefined;
    return bracketError ?? { place: { kind: "new stage" } };
  }
  const path = found.stage;
  return (
    checkBrackets(job, path, quoteStage(target)) ??
    (target.run ? findRun(job, path, target, sides) : findFlow(job, path, target))
  );
}

/** Finds the stage of a table of valves. */
export function findValves(job: EditableJob, target: Target): { readonly stage: Path } | PlaceError {
  const found = findStage(job, { ...target, newStage: false });
  if ("fault" in found)
    return target.newStage
      ? { fault: { ...found.fault, hint: "valves go into a stage that is there: take its readings first" } }
      : found;
  const stage = found.stage!;
  const table: Path = [...stage, "valve_train"];
  const brackets = checkBrackets(job, stage, quoteStage(target));
  if (brackets) return brackets;
  if (target.replace || !hasReadings(job.located, table)) return { stage };
  return placeError(
    "take/readings-there",
    `${quoteStage(target)} has a table of its valves already`,
    job.located.keySpan(table),
    "--replace puts this one in its place",
  );
}

/** The path of the stage; undefined where it is to be made. */
function findStage(job: EditableJob, target: Target): { readonly stage?: Path } | PlaceError {
  const { located } = job;
  const names = listAt(located, ["stages"]).map((stage) => textAt(stage, "name") ?? "");
  const index = names.indexOf(target.stage);
  if (index < 0) return target.newStage ? {} : unknownStage(job, target.stage, names);
  const path: Path = ["stages", index];
  const at = located.span([...path, "name"]);
  if (names.indexOf(target.stage, index + 1) >= 0)
    return placeError(
      "take/stage",
      `there are two stages named \`${target.stage}\``,
      at,
      "give each stage a name of its own",
    );
  if (target.newStage)
    return placeError("take/stage", `there is a stage \`${target.stage}\` already`, at, "leave --new-stage out");
  return { stage: path };
}

function unknownStage({ located }: EditableJob, stage: string, names: readonly string[]): PlaceError {
  const near = didYouMean(stage, names) ?? names.find((name) => name.toLowerCase() === stage.toLowerCase());
  const known =
    names.length > 0 ? `stages are ${names.map((name) => `\`${name}\``).join(", ")}` : "it has no stages yet";
  return placeError(
    "take/stage",
    `the job has no stage \`${stage}\``,
    located.keySpan(["stages"]),
    `${near ? `did you mean \`${near}\`? Else` : `${known};`} --new-stage makes it`,
  );
}

/** Finds the short form of a stage without runs. */
function findFlow({ located }: EditableJob, stage: Path, target: Target): PlaceResult {
  const runs = listAt(located, [...stage, "runs"]);
  if (runs.length === 0) return checkFlow(located, stage, quoteStage(target), target);
  return placeError(
    "take/runs",
    `${quoteStage(target)} holds its readings as runs`,
    located.keySpan([...stage, "runs"]),
    `say which: ${runs.map(formatRunOptions).slice(0, 4).join(", or ")}`,
  );
}

/** Finds the matching run, or the place of a new one; a stage with `flow` itself has no list of runs to add to. */
function findRun(job: EditableJob, stage: Path, target: Target, sides: readonly string[]): PlaceResult {
  const { located, tables } = job;
  const flow: Path = [...stage, "flow"];
  if (hasReadings(located, flow))
    return placeError(
      "take/runs",
      `${quoteStage(target)} holds its readings under \`flow\`, which is one run`,
      located.keySpan(flow),
      "leave --cylinder, --set, --mount and --hand out; or first put its `flow` under `runs:`, behind a dash",
    );
  const runs = listAt(located, [...stage, "runs"]);
  // Two sweeps of one port are one run; the intake from one file and the exhaust from another are two.
  const sharesSide = (index: number) => {
    const found = tables.find((one) => one.stage === stage[1] && one.run === index)?.table;
    return !found || found.columns.some((column) => sides.includes(column.name));
  };
  const index = runs.findIndex((run, at) => matchesRun(run, target.run) && sharesSide(at));
  if (index < 0)
    return runs.length > 0
      ? (checkBrackets(job, [...stage, "runs"], "`runs`") ?? { place: { kind: "new run", stage } })
      : { place: { kind: "first run", stage } };
  const run: Path = [...stage, "runs", index];
  const file = textAt(runs[index]!, "file");
  if (file !== undefined)
    return placeError(
      "take/runs",
      `the readings of this run stand in the file \`${file}\``,
      located.span([...run, "file"]),
      "put the new readings into that file, or take its key out of the job",
    );
  const what = `the run ${formatRunOptions(runs[index]!)} of ${quoteStage(target)}`;
  return checkBrackets(job, run, "this run") ?? checkFlow(located, run, what, target);
}

/** The place `flow` of a stage or run; an error if it has readings and `replace` is not set. */
function checkFlow(located: SourceDocument, owner: Path, what: string, { replace }: Target): PlaceResult {
  const flow: Path = [...owner, "flow"];
  if (replace || !hasReadings(located, flow)) return { place: { kind: "flow", owner } };
  const hint = "--replace puts these in their place";
  return placeError("take/readings-there", `${what} has readings already`, located.keySpan(flow), hint);
}

/** Whether a flow has readings; a head line alone does not count. */
function hasReadings(located: SourceDocument, flow: Path): boolean {
  const value = valueAt(located.value, flow);
  if (typeof value !== "string") return value !== undefined;
  return value.split("\n").filter((line) => line.trim() !== "" && !line.trimStart().startsWith("#")).length > 1;
}

function checkBrackets({ text, located }: EditableJob, path: Path, what: string): PlaceError | undefined {
  const at = located.span(path);
  if (!/^[[{]/.test(text.slice(at.start))) return undefined;
  const message = `${what} is written in brackets, where a table cannot stand`;
  return placeError("take/brackets", message, at, "write it with one key a line, indented alike");
}

const placeError = (code: `take/${string}`, message: string, at: Span, hint: string): PlaceError => ({
  fault: { severity: "error", code, message, at, hint },
});

const quoteStage = ({ stage }: Target) => `stage \`${stage}\``;

const matchesRun = (run: YamlValue, keys: RunKeys = {}): boolean =>
  RUN_KEYS.every((key) => (textAt(run, key) ?? RUN_DEFAULTS[key]) === (keys[key] ?? RUN_DEFAULTS[key]));

const formatRunOptions = (run: YamlValue): string =>
  RUN_KEYS.flatMap((key) => {
    const value = textAt(run, key) ?? (key === "cylinder" ? "1" : undefined);
    return value === undefined ? [] : [`--${key} ${/\s/.test(value) ? JSON.stringify(value) : value}`];
  }).join(" ");

export function listAt(located: SourceDocument, path: Path): readonly YamlValue[] {
  const value = valueAt(located.value, path);
  return Array.isArray(value) ? value : [];
}

function textAt(value: YamlValue, key: string): string | undefined {
  const found = valueAt(value, [key]);
  return typeof found === "string" ? found : undefined;
}
