import type { Diagnostic, Span } from "../../diagnostics/diagnostic.ts";
import { issueMark } from "../../embed/issue-mark.ts";
import { FIGURES_VERSION } from "../../figures/version.ts";
import type { Evaluation } from "../../pipeline/evaluate.ts";
import type { Environment } from "../environment.ts";
import { displayPath } from "../find-jobs.ts";
import { readSheet } from "./issued-sheets.ts";
import { type Fault, type Lines, type Registers, registerPath } from "./register.ts";
import { type Issue, issueKey } from "./register-text.ts";

/** What a job would issue, and where that is registered. */
export type JobIssue = Omit<Issue, "sheet" | "file"> & {
  readonly register: string;
  readonly shop: string;
  readonly draft: boolean;
  /** Place of the ticket in the job. */
  readonly at: Span;
};

export function issueOf({ project, model }: NonNullable<Evaluation["drawable"]>): JobIssue {
  const { number, revision, issued, draft, kind } = model.identity;
  return {
    date: issued,
    ticket: number,
    revision: String(revision),
    mark: issueMark(project),
    figures: FIGURES_VERSION,
    register: registerPath(project.root),
    shop: model.shop.name ?? "",
    draft,
    at: project.located.span(kind === "product" ? ["product", "part"] : ["job"]),
  };
}

/**
 * Compares a job with what its ticket and revision were issued with. Another mark is an error. The same mark under another
 * version of the figures is "frozen": what stands is left. A draft is only warned.
 */
export function checkIssue(
  issue: JobIssue,
  lines: Lines,
  environment: Environment,
): { readonly fault?: Diagnostic; readonly frozen?: true } {
  const issued = lines.get(issueKey(issue)) ?? [];
  if (issue.draft) return issued[0] ? { fault: draftWarning(issue, issued[0]) } : {};
  const other = issued.find(({ mark }) => mark !== issue.mark);
  if (other) return { fault: issuedError(issue, other, environment) };
  return issued.some(({ figures }) => figures !== issue.figures) ? { frozen: true } : {};
}

/** Enters sheets that are about to be written, by template and file name; returns why they must not be. A draft is not entered. */
export function enterIssue(
  issue: JobIssue,
  sheets: readonly Pick<Issue, "sheet" | "file">[],
  registers: Registers,
  environment: Environment,
): Fault {
  if (issue.draft) return undefined;
  const { date, ticket, revision, mark, figures } = issue;
  const issues = sheets.map(({ sheet, file }) => ({ date, ticket, revision, sheet, file, mark, figures }));
  return registers.enter(issue.register, issues, (lines) => {
    const { fault, frozen } = checkIssue(issue, lines, environment);
    return fault ?? (frozen ? frozenError(issue, sheets[0]!.file) : undefined);
  });
}

/** An error about a sheet of the same name that stands in the output folder and says something else, whoever registered it. */
export function checkStanding(issue: JobIssue, name: string, folder: string, { io }: Environment): Fault {
  const standing = readSheet(folder, name, io);
  if (standing === undefined || standing.draft || standing.mark === issue.mark) return undefined;
  return {
    severity: "error",
    code: "make/issued-stands",
    message: `\`${name}\` stands in the output folder as it was issued, and this job says something else; it is left as it is`,
    at: issue.at,
    note: "the register beside this job does not know it: the job was moved, or another shop has the same ticket",
    hint: "raise `revision`, with `replaces:` and `because:`; or, if no customer holds it, take that file away",
  };
}

const named = ({ ticket, revision }: Pick<Issue, "ticket" | "revision">) => `\`${ticket}\` revision ${revision}`;

const issuedError = (issue: JobIssue, { date, file }: Issue, { cwd }: Environment): Diagnostic => ({
  severity: "error",
  code: "make/issued",
  message: `${named(issue)} was issued on ${date} as \`${file}\`, and this job says something else; what was issued is left as it is`,
  at: issue.at,
  note: `a customer may hold it: two sheets of one revision must not say different things; the register is ${displayPath(cwd, issue.register)}`,
  hint: "raise `revision`, with `replaces:` and `because:`; or write `draft: true` while you work on it",
});

const draftWarning = (issue: JobIssue, { date, file }: Issue): Diagnostic => ({
  severity: "warning",
  code: "make/draft-over-issued",
  message: `${named(issue)} was issued on ${date} as \`${file}\`, and this is a draft of it`,
  at: issue.at,
  hint: "raise `revision` before the sheet is handed out again",
});

export const frozenError = (issue: JobIssue, missing: string): Diagnostic => ({
  severity: "error",
  code: "make/issued-by-another-version",
  message: `${named(issue)} was issued by a version of headsheet that computes otherwise, and \`${missing}\` is not here`,
  at: issue.at,
  note: "made now, it could say other figures than the sheets that were issued",
  hint: "take the file from where it was kept; or raise `revision`, with `replaces:` and `because:`",
});

export const frozenNote = (issue: JobIssue, file: string): Diagnostic => ({
  severity: "warning",
  code: "make/left-as-issued",
  message: `${named(issue)} was issued by a version of headsheet that computes otherwise; \`${file}\` is left as issued`,
  at: issue.at,
});
