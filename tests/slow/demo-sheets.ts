import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { templatesOf } from "../../src/pipeline/file-name.ts";
import { renderSheet } from "../../src/pipeline/render-sheet.ts";
import { demoJobs, kit } from "../whole/demo.ts";

/** Every demo sheet, with all that it may carry inside. */
export async function demoSheets(): Promise<readonly { readonly name: string; readonly pdf: Buffer }[]> {
  const sheets: { name: string; pdf: Buffer }[] = [];
  for (const path of demoJobs) {
    const { drawable } = evaluateJob(path, {}, kit.io);
    if (!drawable) throw new Error(`refused: ${path}`);
    const { model } = drawable;
    const open = { ...drawable, model: { ...model, report: { ...model.report, embed: "job" as const } } };
    for (const template of templatesOf(drawable.project, {})) {
      const { name, pdf } = await renderSheet(open, template, {}, kit);
      if (!pdf) throw new Error(`not made: ${path}`);
      sheets.push({ name, pdf: Buffer.from(pdf) });
    }
  }
  return sheets;
}
