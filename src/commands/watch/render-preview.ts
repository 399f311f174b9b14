import { hasError } from "../../diagnostics/build.ts";
import type { Diagnostic, Sources } from "../../diagnostics/diagnostic.ts";
import { visibleText } from "../../diagnostics/visible.ts";
import { overlayIo } from "../../io/overlay-io.ts";
import { recordIo } from "../../io/recording-io.ts";
import { type Evaluation, evaluateJob } from "../../pipeline/evaluate.ts";
import { templatesOf } from "../../pipeline/file-name.ts";
import { type Resources, renderSheet } from "../../pipeline/render-sheet.ts";
import { formatFigures } from "../figures.ts";
import type { Outcome, Problem, SheetInfo } from "./messages.ts";
import { problemsOf } from "./problems.ts";
import { readingPlaces } from "./reading-places.ts";
import type { SheetCache } from "./sheet-cache.ts";

/** Result of rendering a job once. */
export type Preview = {
  readonly problems: readonly Problem[];
  /** Texts of the other files in which problems stand, by name. */
  readonly others: Outcome["others"];
  /** Missing if the job has errors. */
  readonly made?: RenderedJob;
  readonly shopFile?: string;
};
export type RenderedJob = Pick<Outcome, "sheets" | "figures" | "readingPlaces">;

/** Dependencies of a preview, shared by all jobs. */
export type PreviewContext = { readonly resources: Resources; readonly sheets: SheetCache; readonly cwd: string };

/** A job, by its path as typed and its absolute path, and the text that overlays the file's. */
export type PreviewRequest = { readonly job: string; readonly path: string; readonly text?: string };

/** Runs the pipeline of `make` for one job in memory. Calls `recordPath` with each path before it is read. */
export async function renderPreview(
  { job, path, text }: PreviewRequest,
  context: PreviewContext,
  recordPath: (path: string) => void,
): Promise<Preview> {
  const disk = recordIo(context.resources.io, recordPath).io;
  const io = text === undefined ? disk : overlayIo(disk, disk.realPath(path) ?? path, text);
  const { drawable, diagnostics, sources, shopFile } = evaluateJob(job, {}, io, context.cwd, context.resources.cache);
  const all: Diagnostic[] = [...diagnostics];
  const texts = new Map(sources);
  const sheets: SheetInfo[] = [];
  for (const template of drawable ? templatesOf(drawable.project, {}) : []) {
    const made = await renderSheet(drawable!, template, {}, { ...context.resources, io });
    for (const [file, source] of made.sources) texts.set(file, source);
    all.push(...made.diagnostics);
    if (!made.pdf) continue;
    const { name, title = name, pages = [] } = made;
    sheets.push({ id: context.sheets.put({ name, pdf: made.pdf, pages: pages.length }), template, name, title, pages });
  }
  const name = jobName(job);
  const problems = problemsOf(all, texts, name);
  return {
    problems,
    others: otherTexts(all, texts, name),
    ...(drawable && !hasError(all) ? { made: { sheets, ...figuresOf(drawable, name, texts.get(name) ?? "") } } : {}),
    ...(shopFile === undefined ? {} : { shopFile }),
  };
}

function figuresOf(
  { figures, model }: NonNullable<Evaluation["drawable"]>,
  name: string,
  text: string,
): Omit<RenderedJob, "sheets"> {
  const formatted = formatFigures(figures, model.units);
  return { figures: formatted, readingPlaces: readingPlaces(formatted, figures, model, { name, text }) };
}

/** Texts of the files other than the job in which problems stand. */
function otherTexts(all: readonly Diagnostic[], texts: Sources, job: string): Outcome["others"] {
  const names = new Set(all.flatMap(({ at }) => (at && at.file !== job ? [at.file] : [])));
  return Object.fromEntries([...names].map((name) => [visibleText(name), texts.get(name) ?? ""]));
}

/** Name of the job file in messages. */
const jobName = (job: string) => job.replaceAll("\\", "/");
