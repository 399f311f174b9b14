import { join, resolve } from "node:path";
import { hasError } from "../../diagnostics/build.ts";
import { buildForm, type FormAsked } from "../../model/form/build-form.ts";
import { type Evaluation, evaluateJob, type Overrides } from "../../pipeline/evaluate.ts";
import { type Made, type Resources, renderDocument } from "../../pipeline/render-sheet.ts";
import { nameOf } from "../../pipeline/sheets-of-job.ts";
import { paperOf } from "../../project/load-project.ts";
import { buildFormSheet } from "../../sheet/form/build-form-sheet.ts";
import { makeTheme } from "../../theme/make-theme.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { openResources } from "../open-resources.ts";
import { report } from "../report.ts";
import { UsageError } from "../usage-error.ts";
import { writeOutput } from "../write-output.ts";
import { readCylinder, readLifts } from "./form-options.ts";

export type FormOptions = Overrides & {
  readonly outFolder: string;
  readonly stage: string | undefined;
  readonly cylinder: string | undefined;
  readonly lifts: string | undefined;
};

/** Prints the blank bench form of a job; a job that could not be made into a sheet is refused. */
export async function form(job: string, options: FormOptions, world: Environment): Promise<ExitCode> {
  const { drawable, diagnostics, sources } = evaluateJob(job, options, world.io, world.cwd);
  report(diagnostics, sources, world);
  if (!drawable) return 1;
  const { model } = drawable;
  if (model.identity.kind === "product")
    throw new UsageError(`\`${job}\` is a product, which is compiled from jobs: ask for the form of one of them`);
  const asked: FormAsked = {
    ...(options.stage === undefined ? {} : { stage: options.stage }),
    ...(options.cylinder === undefined ? {} : { cylinder: readCylinder(options.cylinder, model.engine?.cylinders) }),
    ...(options.lifts === undefined ? {} : { lifts: readLifts(options.lifts, model.units.length) }),
  };
  const made = await makeForm(drawable, asked, options, openResources(world));
  report(made.diagnostics, sources, world);
  if (!made.pdf || hasError(made.diagnostics)) return 1;
  const file = join(resolve(world.cwd, options.outFolder), made.name);
  writeOutput(file, made.pdf, world);
  return 0;
}

/** Job → form → sheet content → bytes. */
export async function makeForm(
  drawable: NonNullable<Evaluation["drawable"]>,
  asked: FormAsked,
  { paper }: Pick<Overrides, "paper">,
  kit: Resources,
): Promise<Pick<Made, "name" | "pdf" | "diagnostics">> {
  const { project, model, figures } = drawable;
  const { theme } = makeTheme({ paper: paper ?? paperOf(project.job, project.shop) });
  const sheet = buildFormSheet({
    form: buildForm(project, model, asked),
    model,
    theme,
    soundSpeed: figures.reference.air.sound_speed_m_s,
  });
  return { name: nameOf(project, model, "form"), ...(await renderDocument(sheet, drawable, kit)) };
}
