import { join } from "node:path";
import type { Diagnostic, Span } from "../../diagnostics/diagnostic.ts";
import { issueMark } from "../../embed/issue-mark.ts";
import { FIGURES_VERSION } from "../../figures/version.ts";
import type { Io } from "../../io/io.ts";
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
export type IssuedFile = Pick<Issue, "sheet" | "file">;
/** Output folder of a command, and the registers of its jobs. */
export type Output = { readonly folder: string; readonly registers: Registers };
/** What a register names as the template of a catalogue of several products. */
export const CATALOGUE = "together";

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

/**
 * What stands in the output folder under the name of a file that a job would issue. A sheet tells its mark; of a card, a mail and a
 * catalogue only the register can tell that they are this job's.
 */
export function standing(
  issue: Pick<JobIssue, "mark">,
  { sheet, file }: IssuedFile,
  lines: Lines,
  folder: string,
  io: Io,
): "nothing" | "own" | "other" {
  if (io.stat(join(folder, file))?.kind !== "file") return "nothing";
  const found = readSheet(folder, file, io);
  if (found?.draft) return "nothing";
  if (found) return found.mark === issue.mark ? "own" : "other";
  if ([...lines.values()].some((issued) => issued.some((one) => one.file === file))) return "own";
  return file.endsWith(".pdf") && sheet !== CATALOGUE ? "nothing" : "other";
}

/**
 * Enters the files that jobs are about to write together, or returns why they must not be written. Of drafts, and of a catalogue
 * with a draft, nothing is entered.
 */
export function enterIssue(
  issues: readonly JobIssue[],
  files: readonly IssuedFile[],
  { folder, registers }: Output,
  environment: Environment,
): Fault {
  if (issues.some(({ draft }) => draft)) return undefined;
  const refuse = (issue: JobIssue, lines: Lines): Fault => {
    const { fault, frozen } = checkIssue(issue, lines, environment);
    if (fault || frozen) return fault ?? frozenError(issue, files[0]!.file);
    const other = files.find((file) => standing(issue, file, lines, folder, environment.io) === "other");
    return other && standsError(issue, other.file);
  };
  for (const register of new Set(issues.map((issue) => issue.register))) {
    const own = issues.filter((issue) => issue.register === register);
    const entries = own.flatMap(({ date, ticket, revision, mark, figures }) =>
      files.map(({ sheet, file }) => ({ date, ticket, revision, sheet, file, mark, figures })),
    );
    const fault = registers.enter(register, entries, (lines) => own.flatMap((one) => refuse(one, lines) ?? [])[0]);
    if (fault) return fault;
  }
  return undefined;
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

export const standsError = (issue: JobIssue, file: string): Diagnostic => ({
  severity: "error",
  code: "make/issued-stands",
  message: `\`${file}\` stands in the output folder, and it is not what this job issued; it is left as it is`,
  at: issue.at,
  note: "the register beside this job does not know it: the job was moved, or another shop has the same ticket",
  hint: "raise `revision`, with `replaces:` and `because:`; or, if no customer holds it, take that file away",
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
  message: `${named(issue)} was issued by a version of headsheet that computes otherwise, and \`${missing}\` would have to be made anew`,
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
