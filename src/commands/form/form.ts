import { join, resolve } from "node:path";
import { hasError } from "../../diagnostics/build.ts";
import { buildForm, type FormAsked } from "../../model/form/build-form.ts";
import {
  type Asked,
  type Kit,
  type Made,
  nameOf,
  printSheet,
  type Worked,
  workOut,
} from "../../pipeline/render-sheet.ts";
import { paperOf } from "../../project/load-project.ts";
import { buildFormSheet } from "../../sheet/form/build-form-sheet.ts";
import { makeTheme } from "../../theme/make-theme.ts";
import type { ExitCode, World } from "../environment.ts";
import { openKit } from "../open-resources.ts";
import { report } from "../report.ts";
import { WrongUse } from "../usage-error.ts";
import { writeOutput } from "../write-output.ts";
import { readCylinder, readLifts } from "./form-options.ts";

export type FormOptions = Asked & {
  readonly outFolder: string;
  readonly stage: string | undefined;
  readonly cylinder: string | undefined;
  readonly lifts: string | undefined;
};

/** Prints the blank bench form of a job; a job that could not be made into a sheet is refused. */
export async function form(job: string, options: FormOptions, world: World): Promise<ExitCode> {
  const { drawable, diagnostics, sources } = workOut(job, options, world.io, world.cwd);
  report(diagnostics, sources, world);
  if (!drawable) return 1;
  const { model } = drawable;
  if (model.identity.kind === "product")
    throw new WrongUse(`\`${job}\` is a product, which is compiled from jobs: ask for the form of one of them`);
  const asked: FormAsked = {
    ...(options.stage === undefined ? {} : { stage: options.stage }),
    ...(options.cylinder === undefined ? {} : { cylinder: readCylinder(options.cylinder, model.engine?.cylinders) }),
    ...(options.lifts === undefined ? {} : { lifts: readLifts(options.lifts, model.units.length) }),
  };
  const made = await makeForm(drawable, asked, options, openKit(world));
  report(made.diagnostics, sources, world);
  if (!made.pdf || hasError(made.diagnostics)) return 1;
  const file = join(resolve(world.cwd, options.outFolder), made.name);
  writeOutput(file, made.pdf, world);
  return 0;
}

/** Job → form → sheet content → bytes. */
export async function makeForm(
  drawable: NonNullable<Worked["drawable"]>,
  asked: FormAsked,
  { paper }: Pick<Asked, "paper">,
  kit: Kit,
): Promise<Pick<Made, "name" | "pdf" | "diagnostics">> {
  const { project, model, figures } = drawable;
  const { theme } = makeTheme({ paper: paper ?? paperOf(project.job, project.shop) });
  const sheet = buildFormSheet({
    form: buildForm(project, model, asked),
    model,
    theme,
    soundSpeed: figures.reference.air.sound_speed_m_s,
  });
  return { name: nameOf(project, model, "form"), ...(await printSheet(sheet, drawable, kit)) };
}
