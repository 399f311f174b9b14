import type { Diagnostic } from "../diagnostics/diagnostic.ts";

/** Size from which a mailbox may reject an attachment [bytes]. */
const LARGE_FILE = 5_000_000;

export function checkFileSize(bytes: number, template: string): readonly Diagnostic[] {
  if (bytes < LARGE_FILE) return [];
  const message = `the ${template} has ${(bytes / 1e6).toFixed(1)} MB, which some mailboxes refuse`;
  const hint = "leave out photos, or save those that are not made smaller again as JPEG";
  return [{ severity: "warning", code: "sheet/large-file", message, hint }];
}

/** Upper limit of pages: far more than a customer reads or a shop prints. */
const MOST_PAGES = 40;

export function checkPageCount(pages: number, template: string): readonly Diagnostic[] {
  if (pages <= MOST_PAGES) return [];
  const message = `\`${template}\` would have ${pages} pages; at most ${MOST_PAGES} are made`;
  const hint = "shorten the remarks and lists, or print another template";
  return [{ severity: "error", code: "sheet/too-many-pages", message, hint }];
}
