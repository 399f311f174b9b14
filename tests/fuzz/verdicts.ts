import { render } from "../../src/diagnostics/render.ts";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { templatesOf } from "../../src/pipeline/file-name.ts";
import { checkSheet, renderSheet } from "../../src/pipeline/render-sheet.ts";
import { shopWorld } from "../contract/made.ts";
import { kit } from "../whole/demo.ts";
import { fuzzCase } from "./cases.ts";

export type Verdicts = {
  readonly made: number;
  readonly refused: number;
  /** Those refused for a sheet, of a job without an error of its own. */
  readonly refusedSheets: number;
  /** Cases whose two verdicts differ, or that refuse in other words. */
  readonly differences: readonly string[];
};

/** What painting adds to what is found before it: a warning of a size that only the finished file has. */
const OF_THE_FILE = /^(?:sheet\/large-file|photo\/kept-large)$/;

/** Sheets of jobs [from, to) as `check` lays them out and as `make` paints them: each made by both or refused by both, in the same words. */
export async function compareVerdicts(from: number, to: number): Promise<Verdicts> {
  let [made, refused, refusedSheets] = [0, 0, 0];
  const differences: string[] = [];
  for (let number = from; number < to; number++) {
    const one = fuzzCase(number);
    const io = shopWorld(one.files);
    const asked = one.templates ? { templates: one.templates } : {};
    const { drawable } = evaluateJob(one.job, asked, io);
    if (!drawable) {
      refused++;
      continue;
    }
    for (const template of templatesOf(drawable.project, asked)) {
      const checked = await checkSheet(drawable, template, asked, { ...kit, io });
      const painted = await renderSheet(drawable, template, asked, { ...kit, io });
      const said = painted.diagnostics.filter(({ code }) => !OF_THE_FILE.test(code));
      const words = [checked.diagnostics, said].map((each) => render(each, checked.sources));
      const verdicts = [checked.pages !== undefined, painted.pdf !== undefined];
      if (verdicts[0] !== verdicts[1] || words[0] !== words[1])
        differences.push(`case ${number}, ${template}: ${JSON.stringify([verdicts, words])}`);
      if (painted.pdf) made++;
      else refusedSheets++;
    }
  }
  return { made, refused, refusedSheets, differences };
}
