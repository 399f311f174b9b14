import { DEFAULTS } from "../job/defaults.ts";
import type { Model } from "../model/model.ts";
import type { Project } from "../project/project.ts";
import type { Overrides } from "./evaluate.ts";
import { sheetName } from "./file-name.ts";

/** The templates a job is to be printed as, each once: those asked for, else those that the job names, else the default. */
export function templatesOf({ job }: Pick<Project, "job">, asked: Overrides): readonly string[] {
  const { sheet } = DEFAULTS;
  return [...new Set(asked.templates ?? job.sheet ?? (job.product === undefined ? sheet.job : sheet.product))];
}

/** The file name of a sheet: known before anything is drawn, so that two of one batch never collide. */
export function nameOf(project: Project, model: Pick<Model, "identity">, template: string): string {
  const { number, revision, title, issued } = model.identity;
  const { head, product } = project.job;
  return sheetName({ number, revision, template, head: head?.name ?? product?.name ?? title, issued });
}
