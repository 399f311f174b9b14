import { join } from "node:path";
import { hasError } from "../../diagnostics/build.ts";
import type { Sources } from "../../diagnostics/diagnostic.ts";
import { makeFolder } from "../../io/make-folder.ts";
import type { Environment } from "../environment.ts";
import { displayPath } from "../find-jobs.ts";
import { report } from "../report.ts";
import {
  checkIssue,
  enterIssue,
  frozenError,
  frozenNote,
  type IssuedFile,
  type JobIssue,
  type Output,
  standing,
  standsError,
} from "./check-issue.ts";

/** Files that jobs are about to write together: the sheets, the card or the mail of one, or a catalogue of many. */
export type IssueRequest = {
  readonly issues: readonly JobIssue[];
  readonly files: readonly IssuedFile[];
  readonly output: Output;
  readonly sources: Sources;
};
export type Verdict = { readonly verdict: "write" | "left as issued" | "refused"; readonly warned: boolean };

/**
 * Compares the files with the registers of their jobs and with the output folder, before anything is drawn, and reports why they
 * must not be written. What another version of the figures issued is left as it stands, and its paths are printed.
 */
export function checkFiles(request: IssueRequest, environment: Environment): Verdict {
  const { issues, files, output, sources } = request;
  const { folder, registers } = output;
  const isDraft = issues.some(({ draft }) => draft);
  const compared = issues.map((issue) => {
    const lines = registers.open(issue.register, issue.shop, folder);
    return { issue, lines, ...checkIssue(issue, lines, environment) };
  });
  const left = !isDraft && compared.every(({ frozen }) => frozen);
  const found = compared.flatMap(({ issue, lines, fault, frozen }) => {
    if (fault || isDraft) return fault ?? [];
    return files.flatMap((file) => {
      const stands = standing(issue, file, lines, folder, environment.io);
      if (stands === "other") return standsError(issue, file.file);
      if (!frozen) return [];
      return left && stands === "own" ? frozenNote(issue, file.file) : frozenError(issue, file.file);
    });
  });
  // The products of a catalogue share one file: that another one stands in its place is reported once.
  report([...new Map(found.map((one) => [one.message, one])).values()], sources, environment);
  const verdict = hasError(found) ? "refused" : left ? "left as issued" : "write";
  if (verdict === "left as issued")
    for (const { file } of files) environment.out(`${displayPath(environment.cwd, join(folder, file))}\n`);
  return { verdict, warned: found.length > 0 };
}

/** Enters files in the registers before they are written; false, and the reason reported, where another run came first. */
export function issueFiles({ issues, files, output, sources }: IssueRequest, environment: Environment): boolean {
  // A folder that cannot be had is found before anything is issued.
  makeFolder(output.folder);
  const fault = enterIssue(issues, files, output, environment);
  if (fault) report([fault], sources, environment);
  return fault === undefined;
}
