import type { Diagnostic, Span } from "../../diagnostics/diagnostic.ts";
import { escapeFormula } from "../../embed/csv.ts";
import { MARK_PATTERN } from "../../embed/issue-mark.ts";
import { parseDelimited } from "../../parse/parse-delimited.ts";

/** What was issued: one sheet, card or mail of a ticket and revision. */
export type Issue = {
  /** Day of issue of the job. */
  readonly date: string;
  readonly ticket: string;
  readonly revision: string;
  /** Template, or `card` or `mail`. */
  readonly sheet: string;
  readonly file: string;
  readonly mark: string;
  /** Version of the figures. */
  readonly figures: number;
};

export const REGISTER_HEAD = "date,ticket,revision,sheet,file,mark,figures\n";
const MARK = new RegExp(`^${MARK_PATTERN}$`);

/** Folds a ticket and revision, so that another case, a blank, a longer dash or a letter that nobody sees makes no other issue. */
export const issueKey = ({ ticket, revision }: Pick<Issue, "ticket" | "revision">): string =>
  JSON.stringify([fold(ticket), fold(revision)]);

// A register holds an apostrophe before what a spreadsheet would evaluate; a spreadsheet may take the first one away.
const fold = (text: string) =>
  inCell(text.replace(/\p{Cf}/gu, "").replace(/\p{Pd}/gu, "-"))
    .normalize("NFKC")
    .trim()
    .replace(/^'/, "")
    .trim()
    .toLowerCase();

/** A text as its cell of a register holds it; the same again for a text that comes from one. */
const inCell = (text: string) => escapeFormula(text.replace(/\s+/g, " ").trim());

export const formatIssue = ({ date, ticket, revision, sheet, file, mark, figures }: Issue): string =>
  `${[date, ticket, revision, sheet, file, mark, String(figures)].map(quoteCell).join(",")}\n`;

function quoteCell(text: string): string {
  const cell = inCell(text);
  return /^[\p{L}\p{N} ._:/-]*$/u.test(cell) ? cell : `"${cell.replaceAll('"', '""')}"`;
}

/** Parses lines of a register, as written here or saved by a spreadsheet; a line that names no issue is said. */
export function parseRegister(
  file: string,
  text: string,
): { readonly issues: readonly Issue[]; readonly diagnostics: readonly Diagnostic[] } {
  const issues: Issue[] = [];
  const diagnostics: Diagnostic[] = [];
  let start = 0;
  for (const line of text.split("\n")) {
    const issue = parseIssue(line);
    const at = { file, start, end: start + line.trimEnd().length };
    if (issue) issues.push(issue);
    else if (!/^\ufeff?\s*("?date"?\b|#|$)/.test(line)) diagnostics.push(unreadableLine(at));
    start += line.length + 1;
  }
  return { issues, diagnostics };
}

/** Written with commas; a spreadsheet may save some lines with another separator. */
function parseIssue(line: string): Issue | undefined {
  for (const separator of [",", ";", "\t"] as const) {
    const cells = parseDelimited("", line, separator).rows[0]?.cells ?? [];
    const [date, ticket, revision, sheet, file, mark = "", figures = ""] = cells.map(({ text }) => text);
    if (ticket && revision && sheet && MARK.test(mark) && /^\d{1,6}$/.test(figures))
      return { date: date!, ticket, revision, sheet, file: file!, mark, figures: Number(figures) };
  }
  return undefined;
}

const unreadableLine = (at: Span): Diagnostic => ({
  severity: "warning",
  code: "make/register-line",
  message: "this line of the register names no ticket, revision, sheet, file and mark",
  at,
  note: "the sheet that it stood for is not kept from being replaced",
  hint: `write it as the others: ${REGISTER_HEAD.trim()}; or take it out`,
});
