import { join } from "node:path";
import type { Sources } from "../../diagnostics/diagnostic.ts";
import { makeFolder } from "../../io/make-folder.ts";
import type { Evaluation } from "../../pipeline/evaluate.ts";
import type { Environment } from "../environment.ts";
import { displayPath } from "../find-jobs.ts";
import { report } from "../report.ts";
import { checkIssue, enterIssue, frozenError, frozenNote, issueOf } from "./check-issue.ts";
import { openRegisters } from "./register.ts";
import { type Issue, issueKey } from "./register-text.ts";

type IssueArguments = readonly [
  drawable: NonNullable<Evaluation["drawable"]>,
  file: Pick<Issue, "sheet" | "file">,
  folder: string,
  sources: Sources,
  environment: Environment,
];

/** Compares one file of a job, such as a card, with the register; reports why it must not be written or is left as it stands. */
export function checkFile(
  ...[drawable, file, folder, sources, environment]: IssueArguments
): "write" | "left as issued" | "refused" {
  const registers = openRegisters(folder, environment);
  const issue = issueOf(drawable);
  const lines = registers.open(issue.register, issue.shop);
  const { fault, frozen } = checkIssue(issue, lines, environment);
  if (frozen) {
    const path = join(folder, file.file);
    const entered = lines.get(issueKey(issue))!.some((one) => one.sheet === file.sheet && one.file === file.file);
    const stands = entered && environment.io.stat(path)?.kind === "file";
    report([stands ? frozenNote(issue, file.file) : frozenError(issue, file.file)], sources, environment);
    if (stands) environment.out(`${displayPath(environment.cwd, path)}\n`);
    return stands ? "left as issued" : "refused";
  }
  if (fault) report([fault], sources, environment);
  return fault?.severity === "error" ? "refused" : "write";
}

/** Enters one file of a job in the register before it is written; false, and the reason reported, where another run came first. */
export function issueFile(...[drawable, file, folder, sources, environment]: IssueArguments): boolean {
  makeFolder(folder);
  const fault = enterIssue(issueOf(drawable), [file], openRegisters(folder, environment), environment);
  if (fault) report([fault], sources, environment);
  return fault === undefined;
}
