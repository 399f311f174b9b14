import { hasError } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { overlayIo } from "../../io/overlay-io.ts";
import { recordIo } from "../../io/recording-io.ts";
import { evaluateJob } from "../../pipeline/evaluate.ts";
import { type Resources, renderSheet } from "../../pipeline/render-sheet.ts";
import { templatesOf } from "../../pipeline/sheets-of-job.ts";
import { figuresText } from "../figures-text.ts";
import type { Problem, SheetShown } from "./messages.ts";
import { problemsOf } from "./problems.ts";
import type { Shelf } from "./sheet-shelf.ts";

/** What came of looking at a job once. */
export type Look = {
  readonly problems: readonly Problem[];
  /** Missing when the job was refused. */
  readonly made?: Drawn;
  readonly shopFile?: string;
};
export type Drawn = { readonly sheets: readonly SheetShown[]; readonly figures: string };

/** What every look shares. */
export type Means = { readonly kit: Resources; readonly shelf: Shelf; readonly cwd: string };

/** What is to be looked at: a job, by its path as typed and in full, and the text to take in place of the file's. */
export type PreviewRequest = { readonly job: string; readonly path: string; readonly text?: string };

/** The whole road for one job, as `make` goes it, without a file at its end. Every path on the way is noted before it is read. */
export async function renderPreview(
  { job, path, text }: PreviewRequest,
  means: Means,
  note: (path: string) => void,
): Promise<Look> {
  const disk = recordIo(means.kit.io, note).io;
  const io = text === undefined ? disk : overlayIo(disk, disk.realPath(path) ?? path, text);
  const { drawable, diagnostics, sources, shopFile } = evaluateJob(job, {}, io, means.cwd);
  const all: Diagnostic[] = [...diagnostics];
  const texts = new Map(sources);
  const sheets: SheetShown[] = [];
  for (const template of drawable ? templatesOf(drawable.project, {}) : []) {
    const made = await renderSheet(drawable!, template, {}, { ...means.kit, io });
    for (const [file, source] of made.sources) texts.set(file, source);
    all.push(...made.diagnostics);
    if (!made.pdf) continue;
    const { name, title = name, pages = [] } = made;
    sheets.push({ id: means.shelf.put({ name, pdf: made.pdf, pages: pages.length }), template, name, title, pages });
  }
  const problems = problemsOf(all, texts, nameOf(job));
  return {
    problems,
    ...(drawable && !hasError(all)
      ? { made: { sheets, figures: figuresText(drawable.figures, drawable.model.units) } }
      : {}),
    ...(shopFile === undefined ? {} : { shopFile }),
  };
}

/** How messages call the job itself. */
const nameOf = (job: string) => job.replaceAll("\\", "/");
