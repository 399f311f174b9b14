import { hasError, sortDiagnostics } from "../diagnostics/build.ts";
import type { Diagnostic, Sources } from "../diagnostics/diagnostic.ts";
import { checkFigures, warningFigure } from "../figures/checks/check-figures.ts";
import type { KeyPath, Source } from "../figures/checks/check-input.ts";
import { markStale } from "../figures/comparison/stale-dimensions.ts";
import { computeFigures } from "../figures/compute-figures.ts";
import type { Figures } from "../figures/figures.ts";
import { readAllSweeps } from "../figures/sweep/read-all-sweeps.ts";
import type { Io } from "../io/io.ts";
import { buildModel } from "../model/build-model.ts";
import type { DisplayUnits, Model } from "../model/model.ts";
import { valueAt } from "../parse/yaml/source-document.ts";
import type { LoadCache } from "../project/load-cache.ts";
import { loadProject } from "../project/load-project.ts";
import type { Project, ProjectLoad } from "../project/project.ts";
import { appendUnit } from "../units/append-unit.ts";
import type { Pascals } from "../units/quantity.ts";

/** Options of the command line that take precedence over the job's. */
export type Overrides = {
  readonly templates?: readonly string[];
  readonly paper?: "A4" | "Letter";
  readonly units?: Partial<DisplayUnits>;
  readonly strict?: boolean;
  /** Test pressure and lifts to report at in place of the job's, so that many jobs can be compared. */
  readonly testPressure?: Pascals;
  readonly reportLifts?: Model["report"]["lifts"];
  /** `false` where nothing is drawn: photos and logo are then neither read nor checked. */
  readonly pictures?: false;
};

/** A job evaluated up to its figures; `drawable` is present if there are no errors. */
export type Evaluation = {
  readonly drawable?: { readonly project: Project; readonly model: Model; readonly figures: Figures };
  readonly diagnostics: readonly Diagnostic[];
  readonly sources: Sources;
  readonly filesRead: readonly string[];
  readonly shopFile?: string;
};

/** YAML text → job → model → figures. */
export const evaluateJob = (jobPath: string, overrides: Overrides, io: Io, cwd = "", cache?: LoadCache): Evaluation =>
  evaluateProject(loadProject(jobPath, io, cwd, overrides, cache), overrides);

/** Loaded project → model → figures. */
export function evaluateProject({ project, diagnostics, ...read }: ProjectLoad, overrides: Overrides): Evaluation {
  if (!project) return { diagnostics, ...read };
  const built = buildModel(project);
  const known = [...diagnostics, ...built.diagnostics];
  if (hasError(known)) return { diagnostics: sortDiagnostics(known), ...read };
  const model = markStale(applyOverrides(built.model, overrides));
  const sweeps = readAllSweeps(model);
  const computed = computeFigures(model, sweeps);
  const { errors, warnings } = checkFigures(model, computed, sweeps, sourceOf(project));
  const all = sortDiagnostics([
    ...known,
    ...errors,
    ...(model.report.strict ? warnings.filter(({ code }) => code !== UNLIKE_CONDITIONS) : warnings),
    ...checkUnlikeConditions(model, computed, project),
  ]);
  const shown = all.filter(({ severity }) => severity === "warning").map((one) => warningFigure(one, read.sources));
  const figures = { ...computed, warnings: shown };
  return hasError(all)
    ? { diagnostics: all, ...read }
    : { drawable: { project, model, figures }, diagnostics: all, ...read };
}

/** Where the keys of a job stand and what was typed there; a key of the shop's stands in its file. */
function sourceOf({ located, shopLocated, units }: Project): Source {
  const holder = (path: KeyPath) =>
    [located, shopLocated].find((one) => one !== undefined && valueAt(one.value, path) !== undefined);
  return {
    placeOf: (path) => holder(path)?.span(path),
    textOf: (path, kind) => {
      const typed = valueAt(located.value, path);
      return typeof typed === "string" ? appendUnit(typed.trim(), kind, units[kind]) : undefined;
    },
  };
}

function applyOverrides(model: Model, { units, strict, testPressure, reportLifts }: Overrides): Model {
  return {
    ...model,
    units: { ...model.units, ...units },
    reference: testPressure === undefined ? model.reference : { ...model.reference, testPressure },
    report: { ...model.report, ...(strict && { strict }), ...(reportLifts && { lifts: reportLifts }) },
  };
}

const UNLIKE_CONDITIONS = "figures/unlike-conditions";

/** With `strict`, a comparison under unlike conditions is an error instead of a warning. */
function checkUnlikeConditions(model: Model, figures: Figures, project: Project): readonly Diagnostic[] {
  if (!model.report.strict) return [];
  return figures.comparisons
    .filter((one) => !one.like_for_like)
    .map(({ from, to, side, differences }) => ({
      severity: "error",
      code: UNLIKE_CONDITIONS,
      message: `${from.label ?? from.stage} and ${to.label ?? to.stage} were not measured alike on the ${side} side`,
      at: project.located.span(["stages"]),
      note: differences.join("; "),
      hint: "leave `strict` out to have the sheet say so where it compares",
    }));
}
