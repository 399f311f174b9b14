import type { Model } from "./model/model.ts";
import type { Project } from "./project/project.ts";
import { sheetName } from "./sheet-name.ts";
import type { Asked } from "./work-out.ts";

/** The templates a job is to be printed as. */
export const templatesOf = (project: Project, asked: Asked): readonly string[] => [
  ...new Set(asked.templates ?? project.templates),
];

/** The file name of a sheet: known before anything is drawn, so that two of one batch never collide. */
export function nameOf(project: Project, model: Pick<Model, "identity">, template: string): string {
  const { number, revision, title, issued } = model.identity;
  const { head, product } = project.job;
  return sheetName({ number, revision, template, head: head?.name ?? product?.name ?? title, issued });
}
