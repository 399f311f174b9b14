import { join, resolve } from "node:path";
import { hasError } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { figuresMark } from "../../embed/figures-mark.ts";
import { removeStaleTempFiles } from "../../io/temporary-file.ts";
import { type Evaluation, evaluateJob, type Overrides } from "../../pipeline/evaluate.ts";
import { renderSheet } from "../../pipeline/render-sheet.ts";
import { templatesOf } from "../../pipeline/sheets-of-job.ts";
import { mailLines } from "../../sheet/mail-lines.ts";
import { makeContext } from "../../sheet/make-context.ts";
import { makeTheme } from "../../theme/make-theme.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { checkIssued, standingSheets } from "../make/check-issued.ts";
import { openResources } from "../open-resources.ts";
import { report } from "../report.ts";
import { writeOutput } from "../write-output.ts";
import { type Draft, mailDraft } from "./mail-draft.ts";

export type MailOptions = Overrides & { readonly outFolder: string };

/** Writes an unsent mail with the job's sheet attached. Nothing is ever sent: the porter opens it, reads it, and sends it himself. */
export async function mail(job: string, options: MailOptions, world: Environment): Promise<ExitCode> {
  const { drawable, diagnostics, sources } = evaluateJob(job, options, world.io, world.cwd);
  const faults = drawable ? addressFaults(drawable) : [];
  report([...diagnostics, ...faults], sources, world);
  if (!drawable || hasError(faults)) return 1;

  const folder = resolve(world.cwd, options.outFolder);
  const sheet = await renderSheet(drawable, attachedTemplate(drawable.project, options), options, openResources(world));
  const issued = sheet.pdf && checkIssued(sheet.name, sheet.pdf, folder, standingSheets(folder, world.io), world.io);
  const all = [...sheet.diagnostics, ...(issued ? [issued] : [])];
  report(all, new Map([...sources, ...sheet.sources]), world);
  if (!sheet.pdf || hasError(all)) return 1;

  removeStaleTempFiles(folder);
  const file = join(folder, mailName(sheet.name));
  writeOutput(file, await mailDraft(draftOf(drawable, sheet.name, sheet.pdf)), world);
  return 0;
}

/** What is read on a phone, where the job has it; else its first sheet. */
function attachedTemplate(project: Parameters<typeof templatesOf>[0], asked: Overrides): string {
  const names = templatesOf(project, asked);
  return names.find((name) => name === "attachment") ?? names[0]!;
}

/** As the sheet's, with what it is in place of its template. */
function mailName(sheet: string): string {
  const [number, revision, , ...rest] = sheet.replace(/\.pdf$/, "").split("_");
  return `${[number, revision, "mail", ...rest].join("_")}.eml`;
}

function draftOf({ model, figures }: NonNullable<Evaluation["drawable"]>, name: string, pdf: Uint8Array): Draft {
  const { identity, shop, text } = model;
  const mark = figuresMark(model, figures);
  const context = makeContext({ model, figures, mark, theme: makeTheme({ accent: shop.accent }).theme });
  return {
    from: { name: shop.name ?? "", address: shop.email! },
    ...(text.customer?.email ? { to: { name: text.customer.name, address: text.customer.email } } : {}),
    subject: `${identity.title}, ${identity.number}, revision ${identity.revision}`,
    lines: mailLines(context),
    issued: identity.issued,
    mark,
    attachment: { name, pdf },
  };
}

/** One address and nothing else: what a mail program would take for two, or for another header, is refused. */
const ONE_ADDRESS = /^[^\s@<>()[\],;:\\"]+@[^\s@<>()[\],;:\\"]+$/;

function addressFaults({ project, model }: NonNullable<Evaluation["drawable"]>): readonly Diagnostic[] {
  const from = model.shop.email;
  const to = model.text.customer?.email;
  const at = project.located.span(["customer", "email"]);
  return [
    ...(from === undefined
      ? [
          fault("error", "mail/no-sender", "a mail needs the shop's own address", {
            hint: "write it in shop.yaml: shop: { email: bench@yourshop.example }",
          }),
        ]
      : []),
    ...(from !== undefined && !ONE_ADDRESS.test(from)
      ? [fault("error", "mail/address", `the shop's \`${from}\` is no e-mail address`, { hint: EXAMPLE })]
      : []),
    ...(to !== undefined && !ONE_ADDRESS.test(to)
      ? [fault("error", "mail/address", `\`${to}\` is no e-mail address`, { at, hint: EXAMPLE })]
      : []),
    ...(to === undefined && model.identity.kind === "job"
      ? [
          fault("warning", "mail/no-address", "the job has no address of the customer", {
            hint: "type it into the draft, or into the job: customer: { email: name@place.example }",
          }),
        ]
      : []),
  ];
}

const EXAMPLE = "one address, such as name@place.example";

const fault = (
  severity: Diagnostic["severity"],
  code: Diagnostic["code"],
  message: string,
  more: Pick<Diagnostic, "at" | "hint">,
): Diagnostic => ({ severity, code, message, ...more });
