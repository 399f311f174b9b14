import { join } from "node:path";
import { hasError } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { type Evaluation, evaluateJob, type Overrides } from "../../pipeline/evaluate.ts";
import { sheetFileName, templatesOf } from "../../pipeline/file-name.ts";
import { placeFaults } from "../../pipeline/place-faults.ts";
import { renderSheet } from "../../pipeline/render-sheet.ts";
import { sheetMark } from "../../pipeline/sheet-mark.ts";
import { createContext } from "../../sheet/make-context.ts";
import { mailLines } from "../../sheet/summary.ts";
import { makeTheme } from "../../theme/make-theme.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { issueOf } from "../issued/check-issue.ts";
import { checkFiles, issueFiles } from "../issued/issue-files.ts";
import { openRegisters } from "../issued/register.ts";
import { openResources } from "../open-resources.ts";
import { openFolder, report, writeOutput } from "../report.ts";
import { type Draft, serializeDraft } from "./mail-draft.ts";

type MailOptions = Overrides & { readonly outFolder: string };

/** Writes a mail draft with the job's sheet attached; it is never sent from here. */
export async function writeMail(job: string, options: MailOptions, environment: Environment): Promise<ExitCode> {
  const { drawable, diagnostics, sources } = evaluateJob(job, options, environment.io, environment.cwd);
  const faults = drawable ? checkAddresses(drawable) : [];
  report([...diagnostics, ...faults], sources, environment);
  if (!drawable || hasError(faults)) return 1;

  const name = sheetFileName(drawable.project, drawable.model, "mail", "eml");
  const folder = openFolder(options.outFolder, environment);
  const request = {
    issues: [issueOf(drawable)],
    files: [{ sheet: "mail", file: name }],
    output: { folder, registers: openRegisters(environment) },
    sources,
  };
  const { verdict } = checkFiles(request, environment);
  if (verdict !== "write") return verdict === "refused" ? 1 : 0;
  const template = chooseTemplate(drawable.project, options);
  const sheet = await renderSheet(drawable, template, options, openResources(environment));
  report(sheet.diagnostics, new Map([...sources, ...sheet.sources]), environment);
  if (!sheet.pdf || hasError(sheet.diagnostics)) return 1;

  if (!issueFiles(request, environment)) return 1;
  writeOutput(join(folder, name), await serializeDraft(buildDraft(drawable, sheet.name, sheet.pdf)), environment);
  return 0;
}

/** Template `attachment`, which fits a phone, where the job has it; else the job's first. */
function chooseTemplate(project: Parameters<typeof templatesOf>[0], overrides: Overrides): string {
  const names = templatesOf(project, overrides);
  return names.find((name) => name === "attachment") ?? names[0]!;
}

function buildDraft(
  { project, model, figures }: NonNullable<Evaluation["drawable"]>,
  name: string,
  pdf: Uint8Array,
): Draft {
  const { identity, shop, text } = model;
  const mark = sheetMark(project);
  const context = createContext({ model, figures, mark, theme: makeTheme({ accent: shop.accent }).theme });
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

/** Exactly one address: refuses anything that a mail program could parse as two, or as another header. */
const ONE_ADDRESS = /^[^\s@<>()[\],;:\\"]+@[^\s@<>()[\],;:\\"]+$/;

function checkAddresses({ project, model }: NonNullable<Evaluation["drawable"]>): readonly Diagnostic[] {
  const from = model.shop.email;
  const to = model.text.customer?.email;
  const at = project.located.span(["customer", "email"]);
  const ofShop = project.shopLocated && { at: project.shopLocated.span(["shop", "email"]) };
  const faults: readonly Diagnostic[] = [
    ...(from === undefined
      ? [
          diagnostic("error", "mail/no-sender", "a mail needs the shop's own address", {
            ...ofShop,
            hint: "write it in shop.yaml: shop: { email: bench@yourshop.example }",
          }),
        ]
      : []),
    ...(from !== undefined && !ONE_ADDRESS.test(from)
      ? [
          diagnostic("error", "mail/address", `the shop's \`${from}\` is no e-mail address`, {
            ...ofShop,
            hint: EXAMPLE,
          }),
        ]
      : []),
    ...(to !== undefined && !ONE_ADDRESS.test(to)
      ? [diagnostic("error", "mail/address", `\`${to}\` is no e-mail address`, { at, hint: EXAMPLE })]
      : []),
    ...(to === undefined && model.identity.kind === "job"
      ? [
          diagnostic("warning", "mail/no-address", "the job has no address of the customer", {
            at,
            hint: "type it into the draft, or into the job: customer: { email: name@place.example }",
          }),
        ]
      : []),
  ];
  return placeFaults(faults, project);
}

const EXAMPLE = "one address, such as name@place.example";

const diagnostic = (
  severity: Diagnostic["severity"],
  code: Diagnostic["code"],
  message: string,
  more: Pick<Diagnostic, "at" | "hint">,
): Diagnostic => ({ severity, code, message, ...more });
