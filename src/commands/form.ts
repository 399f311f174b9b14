import { join } from "node:path";
import { hasError } from "../diagnostics/build.ts";
import { didYouMean } from "../diagnostics/did-you-mean.ts";
import { visibleText } from "../diagnostics/visible.ts";
import { buildForm, type FormChoices, isSameName } from "../model/form/build-form.ts";
import type { Model } from "../model/model.ts";
import { type Evaluation, evaluateJob, type Overrides } from "../pipeline/evaluate.ts";
import { sheetFileName } from "../pipeline/file-name.ts";
import { type RenderedSheet, type Resources, renderDocument } from "../pipeline/render-sheet.ts";
import { paperOf } from "../project/load-project.ts";
import { buildFormSheet } from "../sheet/form/build-form-sheet.ts";
import { makeTheme } from "../theme/make-theme.ts";
import { parseQuantity } from "../units/parse-quantity.ts";
import { type Metres, metres } from "../units/quantity.ts";
import type { Environment, ExitCode } from "./environment.ts";
import { UsageError } from "./environment.ts";
import { openResources } from "./open-resources.ts";
import { openFolder, report, writeOutput } from "./report.ts";

type FormArguments = Overrides & {
  readonly outFolder: string;
  readonly stage: string | undefined;
  readonly cylinder: string | undefined;
  readonly lifts: string | undefined;
};

/** Prints the blank bench form of a job; a job that could not be made into a sheet is refused. */
export async function writeForm(job: string, options: FormArguments, environment: Environment): Promise<ExitCode> {
  const { drawable, diagnostics, sources } = evaluateJob(job, options, environment.io, environment.cwd);
  report(diagnostics, sources, environment);
  if (!drawable) return 1;
  const { model } = drawable;
  if (model.identity.kind === "product")
    throw new UsageError(`\`${job}\` is a product, which is compiled from jobs: ask for the form of one of them`);
  if (options.stage !== undefined) hintAtStage(options.stage, model, environment);
  const choices: FormChoices = {
    ...(options.stage === undefined ? {} : { stage: options.stage }),
    ...(options.cylinder === undefined ? {} : { cylinder: parseCylinder(options.cylinder, model.engine?.cylinders) }),
    ...(options.lifts === undefined ? {} : { lifts: parseLifts(options.lifts, model.units.length) }),
  };
  const form = await renderForm(drawable, choices, options, openResources(environment));
  report(form.diagnostics, sources, environment);
  if (!form.pdf || hasError(form.diagnostics)) return 1;
  writeOutput(join(openFolder(options.outFolder, environment), form.name), form.pdf, environment);
  return 0;
}

/** A form for a stage that is not in the job yet is no fault, but may be a slip. */
function hintAtStage(typed: string, { stages }: Model, { err }: Environment): void {
  const names = stages.map(({ name }) => name);
  if (names.some((name) => isSameName(name, typed))) return;
  const near = didYouMean(typed, names);
  const hint =
    near === undefined ? `the job has ${names.map((name) => `\`${name}\``).join(", ")}` : `did you mean \`${near}\`?`;
  err(visibleText(`no stage \`${typed}\` in the job yet: the form is for a new one; ${hint}`));
  err("\n");
}

/** Job → form → sheet content → bytes. */
export async function renderForm(
  drawable: NonNullable<Evaluation["drawable"]>,
  choices: FormChoices,
  { paper }: Pick<Overrides, "paper">,
  resources: Resources,
): Promise<Pick<RenderedSheet, "name" | "pdf" | "diagnostics">> {
  const { project, model, figures } = drawable;
  const { theme } = makeTheme({ font: model.shop.font, paper: paper ?? paperOf(project.job, project.shop) });
  const sheet = buildFormSheet({
    form: buildForm(project, model, choices),
    model,
    theme,
    soundSpeed: figures.reference.air.sound_speed_m_s,
  });
  return { name: sheetFileName(project, model, "form"), ...(await renderDocument(sheet, drawable, resources)) };
}

/** Upper limit of lifts on one form. */
const MAX_LIFTS = 60;

/** Parses ascending lifts separated by blanks or commas; bare numbers take the form's unit of length. */
export function parseLifts(typed: string, unit: string): readonly Metres[] {
  const words = typed.split(/[\s,;]+/).filter((word) => word !== "");
  if (words.length === 0 || words.length > MAX_LIFTS)
    throw new UsageError(`\`--lifts\` takes 1 to ${MAX_LIFTS} lifts, such as --lifts "0.050 0.100 0.150"`);
  const lifts = words.map((word) => {
    const read = parseQuantity(word, "length", unit);
    if (!read.ok) throw new UsageError(`\`--lifts\`: ${read.message}`);
    if (!(read.value > 0)) throw new UsageError(`\`--lifts\`: \`${word}\` is not above zero`);
    return metres(read.value);
  });
  const falls = lifts.findIndex((lift, i) => i > 0 && lift <= lifts[i - 1]!);
  if (falls > 0) throw new UsageError(`\`--lifts\` must rise: \`${words[falls]}\` follows \`${words[falls - 1]}\``);
  return lifts;
}

/** Parses a cylinder number, at most the number of cylinders of the engine. */
export function parseCylinder(typed: string, of: number | undefined): number {
  if (!/^[1-9]\d{0,2}$/.test(typed))
    throw new UsageError(`\`--cylinder\` takes a whole number of 1 or more: \`${typed}\``);
  const cylinder = Number(typed);
  if (of !== undefined && cylinder > of)
    throw new UsageError(`\`--cylinder ${cylinder}\`: the job's engine has ${of} cylinders`);
  return cylinder;
}
