import { resolve } from "node:path";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { visibleText } from "../../diagnostics/visible.ts";
import type { Io } from "../../io/io.ts";
import { overlayIo } from "../../io/overlay-io.ts";
import { buildModel } from "../../model/build-model.ts";
import { formLifts } from "../../model/form/form-lifts.ts";
import type { Model, Stage } from "../../model/model.ts";
import { type Path, valueAt } from "../../parse/yaml/source-document.ts";
import { evaluateProject } from "../../pipeline/evaluate.ts";
import type { LoadCache } from "../../project/load-cache.ts";
import { createLoadContext, loadJob } from "../../project/load-job.ts";
import { loadProject } from "../../project/load-project.ts";
import { fromSi } from "../../units/convert.ts";
import { defaultDecimals, show } from "../../units/show.ts";
import { findUnit } from "../../units/table.ts";
import type { BenchSide } from "../take/bench-act.ts";
import { applyEdit, editReadings } from "../take/edit-readings.ts";
import { type EditableJob, listAt } from "../take/find-place.ts";
import {
  cellOf,
  type GridCell,
  type GridRow,
  isMissingText,
  ownerOf,
  type ReadingsGrid,
  readGrid,
  stageNames,
} from "../take/readings-grid.ts";
import type {
  BenchCell,
  BenchChoice,
  BenchRow,
  BenchView,
  ChartPoint,
  Entered,
  EnterRequest,
  Verdict,
} from "./bench-messages.ts";
import { planBench } from "./bench-plan.ts";
import { problemsOf } from "./problems.ts";
import { quickFix } from "./quick-fix.ts";

/** A job by its path as typed, and what its files are read with. */
export type BenchContext = {
  readonly job: string;
  readonly io: Io;
  readonly cwd: string;
  readonly cache?: LoadCache;
};
const SIDES = ["intake", "exhaust"] as const;

/** Text → edit of one act, and the view of the edited text. */
export function enterAtBench({ text, choice, act }: EnterRequest, context: BenchContext): Entered {
  const { editable } = load(text, context);
  if (!editable) return { fault: "the text cannot be read as a job: nothing was entered" };
  const chosen = choose(editable, choice);
  const made = editReadings(
    editable,
    { stage: chosen.stage, ...(chosen.run === undefined ? {} : { run: chosen.run }) },
    act,
  );
  if ("fault" in made) return made;
  return { edit: made.edit, bench: benchOf(applyEdit(text, made.edit), { ...choice, ...chosen }, context) };
}

/** The view of one side of a stage's table; nothing of it is drawn on a sheet. */
export function benchOf(text: string, choice: BenchChoice, context: BenchContext): BenchView {
  const { editable, read, over } = load(text, context);
  const project = loadProject(context.job, over, context.cwd, { pictures: false }, context.cache);
  const { diagnostics, sources } = evaluateProject(project, { pictures: false });
  const problems = problemsOf(diagnostics, sources, jobName(context.job));
  if (!editable) return unreadable(choice, problems);
  const { stage, run } = choose(editable, choice);
  const index = stageNames(editable).indexOf(stage);
  const owner = ownerOf(Math.max(0, index), run);
  const grid = index < 0 ? undefined : readGrid(editable, owner);
  const model = project.project && buildModel(project.project).model;
  const reads = read.runs.find((one) => one.stage === index && one.run === run)?.bench.reads ?? "flow";
  const units = unitsOf(grid, { lift: read.units.length, flow: reads === "percent" ? "%" : read.units.flow });
  const own = diagnostics.filter(({ at }) => at?.file === jobName(context.job));
  const rows = grid?.rows.map((row) => rowOf(grid, row, own, text)) ?? [];
  const now = pointsOf(rows, choice.side);
  const staged = model?.stages[index];
  const before = beforeOf(model, index, choice.side, units.flow, now, units.lift);
  const pressure = staged?.bench.testPressure;
  return {
    stages: stageNames(editable),
    stage,
    runs: runsOf(editable, index),
    ...(run === undefined ? {} : { run }),
    side: choice.side,
    draft: valueAt(editable.located.value, ["draft"]) === "true",
    title: titleOf(editable),
    units: { lift: units.lift ?? "", flow: units.flow ?? "" },
    ...(pressure === undefined || !model ? {} : { pressure: show(pressure, "pressure", model.units.pressure) }),
    rows,
    plan: planBench({
      lifts: model ? plannedLifts(model, index, units.lift, rows) : [],
      rows,
      side: choice.side,
      report: reportLifts(model, units.lift),
      stated: staged?.bench.repeatability !== undefined,
      skipped: choice.skipped ?? [],
    }),
    now,
    ...(before ? { before } : {}),
    early: new Set(now.map(({ lift }) => lift)).size < 3,
    sized: (staged ?? model?.stages.at(-1))?.ports[choice.side]?.valves.length !== undefined,
    problems,
    ...faultOf(editable, owner, index, grid),
  };
}

const jobName = (job: string) => job.replaceAll("\\", "/");

function load(text: string, { job, io, cwd, cache }: BenchContext) {
  const path = resolve(cwd, job);
  const over = overlayIo(io, io.realPath(path) ?? path, text);
  const { read } = loadJob(path, text, createLoadContext(job, over, cwd, cache));
  const editable: EditableJob | undefined = read.located && { text, located: read.located, tables: read.tables };
  return { read, over, editable };
}

const unreadable = (choice: BenchChoice, problems: BenchView["problems"]): BenchView => ({
  stages: [],
  stage: choice.stage ?? "",
  runs: [],
  side: choice.side,
  draft: false,
  title: "",
  units: { lift: "", flow: "" },
  rows: [],
  plan: { lifts: [], again: [], offered: false },
  now: [],
  early: true,
  sized: true,
  problems,
  fault: problems[0]?.message ?? "the text cannot be read as a job",
});

/** The stage asked for, else the first without readings, else the last; its table, else its first run. */
function choose(editable: EditableJob, { stage, run }: BenchChoice): { readonly stage: string; readonly run?: number } {
  const names = stageNames(editable);
  const empty = names.findIndex((_, index) => !hasTable(editable, index));
  const chosen = stage ?? names[empty < 0 ? names.length - 1 : empty] ?? "As received";
  const runs = runsOf(editable, names.indexOf(chosen));
  const found =
    runs.find(({ index }) => index === run && run !== undefined) ?? runs.find(({ file }) => !file) ?? runs[0];
  return { stage: chosen, ...(found?.index === undefined ? {} : { run: found.index }) };
}

const hasTable = ({ located }: EditableJob, stage: number) =>
  ["flow", "runs"].some((key) => valueAt(located.value, ["stages", stage, key]) !== undefined);

function runsOf({ located }: EditableJob, stage: number): BenchView["runs"] {
  return listAt(located, ["stages", stage, "runs"]).map((run, index) => {
    const words = (["set", "cylinder", "mount", "hand"] as const).flatMap((key) => {
      const value = valueAt(run, [key]);
      return typeof value === "string" ? [`${key} ${visibleText(value)}`] : [];
    });
    const file = valueAt(run, ["file"]);
    return { index, label: words.join(", ") || `run ${index + 1}`, ...(typeof file === "string" ? { file } : {}) };
  });
}

function faultOf(editable: EditableJob, owner: Path, stage: number, grid: ReadingsGrid | undefined) {
  const file = valueAt(editable.located.value, [...owner, "file"]);
  if (stage >= 0 && typeof file === "string")
    return {
      fault: `these readings are kept in \`${visibleText(file)}\`: they are shown on the sheet, not edited here`,
    };
  const flow = stage < 0 ? undefined : valueAt(editable.located.value, [...owner, "flow"]);
  if (flow !== undefined && !grid) return { fault: "this table is written in a way that only Job text can edit" };
  return {};
}

function titleOf({ located: { value } }: EditableJob): string {
  const name = valueAt(value, ["head", "name"]) ?? valueAt(value, ["head"]);
  return [valueAt(value, ["job"]), name]
    .flatMap((one) => (typeof one === "string" ? [visibleText(one)] : []))
    .join(" ");
}

/** Units of the columns: their own, else those of the job. */
function unitsOf(
  grid: ReadingsGrid | undefined,
  stated: { readonly lift?: string | undefined; readonly flow?: string | undefined },
) {
  const own = (name: string, kind: "length" | "flow") => {
    const typed = grid?.head[grid.columns.indexOf(name)]?.text;
    return findUnit(kind, /[/([]([^)\]]*)/.exec(typed ?? "")?.[1] ?? "")?.name;
  };
  return {
    lift: own("lift", "length") ?? stated.lift,
    flow: own("intake", "flow") ?? own("exhaust", "flow") ?? stated.flow,
  };
}

function rowOf(grid: ReadingsGrid, row: GridRow, diagnostics: readonly Diagnostic[], text: string): BenchRow {
  const [start, end] = [row.cells[0]!.from, row.cells.at(-1)!.to];
  const here = diagnostics.filter(({ at }) => at!.start < end && at!.end > start);
  const cells: Partial<Record<BenchSide, BenchCell>> = {};
  for (const side of SIDES) {
    const cell = cellOf(grid, row, side);
    if (!cell) continue;
    const other = cellOf(grid, row, side === "intake" ? "exhaust" : "intake");
    const verdict = isMissingText(cell.text)
      ? undefined
      : verdictOf(
          here.filter((one) => isAbout(one, cell, other)),
          text,
        );
    cells[side] = { typed: cell.text, ...(verdict ? { verdict } : {}) };
  }
  const lift = cellOf(grid, row, "lift")?.text ?? "";
  return { lift, rises: row.rises, cells, ...(row.comment ? { reason: row.comment.text } : {}) };
}

/** Whether a finding is about this cell, or about the row and not the other side's. */
function isAbout({ at, severity }: Diagnostic, cell: GridCell, other: GridCell | undefined): boolean {
  const touches = (one: GridCell) => at!.start < one.to && at!.end > one.from;
  return touches(cell) || (severity === "error" && !(other && touches(other)));
}

function verdictOf(found: readonly Diagnostic[], text: string): Verdict | undefined {
  const [first, ...rest] = found.toSorted((a, b) => Number(b.severity === "error") - Number(a.severity === "error"));
  if (!first) return undefined;
  const fix = quickFix(first.hint, text.slice(first.at!.start, first.at!.end));
  return {
    level: first.severity === "error" ? "impossible" : "off",
    words: visibleText(first.message),
    ...(fix ? { meant: fix.after } : {}),
    more: [
      ...(first.hint && !fix ? [visibleText(first.hint)] : []),
      ...rest.map(({ message }) => visibleText(message)),
    ],
  };
}

const KINDS: Readonly<Record<string, ChartPoint["kind"]>> = { "?": "doubtful", "!": "noisy" };

function pointsOf(rows: readonly BenchRow[], side: BenchSide): readonly ChartPoint[] {
  return rows.flatMap(({ lift, cells }) => {
    const cell = cells[side];
    const flow = Number(cell?.typed.replace(/[?!%]+$/, ""));
    if (!cell || !Number.isFinite(flow) || !(Number(lift) > 0)) return [];
    const kind = KINDS[cell.typed.at(-1)!] ?? (cell.verdict ? "off" : "good");
    return [{ lift: Number(lift), flow, kind }];
  });
}

/** The stage before, where it was read at the same pressure, at the lifts only that have been entered. */
function beforeOf(
  model: Model | undefined,
  index: number,
  side: BenchSide,
  flow: string | undefined,
  now: readonly ChartPoint[],
  length: string | undefined,
) {
  if (!model || length === undefined || !findUnit("flow", flow ?? "")) return undefined;
  const stages = index < 0 ? model.stages : model.stages.slice(0, index);
  const pressure = (model.stages[index] ?? model.stages.at(-1))?.bench.testPressure;
  const stage = stages.findLast(({ sets }) => sets[0]?.runs.some(({ readings }) => readings[side].length > 0));
  if (stage?.sets[0]?.bench.testPressure !== pressure || !stage) return undefined;
  const points = (stage.sets[0]?.runs[0]?.readings[side] ?? []).flatMap((reading): ChartPoint[] => {
    const lift = fromSi(reading.lift, "length", length);
    const entered = now.find((one) => Math.abs(one.lift - lift) < 1e-6);
    if (!entered || reading.flow === undefined || reading.kind !== "good") return [];
    return [{ lift: entered.lift, flow: fromSi(reading.flow, "flow", flow!), kind: "good" }];
  });
  const rising = points.filter(({ lift }, at) => points.findIndex((one) => one.lift === lift) === at);
  return rising.length === 0 ? undefined : { stage: stage.name, points: rising };
}

/** The lifts of the form for this stage, as its rows are written. */
function plannedLifts(
  model: Model,
  index: number,
  unit: string | undefined,
  rows: readonly BenchRow[],
): readonly string[] {
  if (unit === undefined) return [];
  const own = model.stages[index] ?? model.stages.at(-1);
  const bare: Stage | undefined = own && { ...own, sets: [] };
  const before = index < 0 ? model.stages : model.stages.slice(0, index);
  const { at } = formLifts({ ...model, stages: bare ? [...before, bare] : [] }, bare);
  const decimals = Math.max(
    ...(rows.length > 0
      ? rows.map(({ lift }) => /\.(\d*)/.exec(lift)?.[1]?.length ?? 0)
      : [Math.min(3, defaultDecimals("length", unit))]),
  );
  return at.map((lift) =>
    fromSi(lift, "length", unit).toFixed(Math.max(decimals, leastDecimals(fromSi(lift, "length", unit)))),
  );
}

const leastDecimals = (value: number) => /\.(\d+?)0*$/.exec(value.toFixed(4))?.[1]?.replace(/^0+$/, "").length ?? 0;

const reportLifts = (model: Model | undefined, unit: string | undefined): readonly number[] =>
  model === undefined || unit === undefined
    ? []
    : model.report.lifts.flatMap((one) => (one.kind === "lift" ? [fromSi(one.lift, "length", unit)] : []));
