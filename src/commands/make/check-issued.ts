import { join } from "node:path";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Io } from "../../io/io.ts";

/** What a sheet says of itself: its number and revision, the mark of its figures, whether it is a draft. */
export type Issued = { readonly sheet: string; readonly mark: string; readonly draft: boolean };

/** A sheet is far smaller; whatever is larger is none of ours. */
const LARGEST = 64 * 1024 * 1024;

/** Reads what a PDF of ours says of itself; undefined for anything else. */
export function readIssued(pdf: Uint8Array): Issued | undefined {
  const text = Buffer.from(pdf.buffer, pdf.byteOffset, pdf.byteLength).toString("latin1");
  const found = /<dc:identifier>([^<]{1,2000}) figures ([0-9a-f]{8})( draft)?<\/dc:identifier>/.exec(text);
  return found ? { sheet: found[1]!, mark: found[2]!, draft: found[3] !== undefined } : undefined;
}

/** Sheets that stand in a folder, by all of their name but the day of issue: listed once for a whole batch. */
export type Standing = ReadonlyMap<string, readonly string[]>;

export function standingSheets(folder: string, io: Io): Standing {
  const sheets = io.listFolder(folder).filter((name) => name.endsWith(".pdf"));
  const standing = new Map<string, string[]>();
  for (const sheet of sheets) standing.set(undated(sheet), [...(standing.get(undated(sheet)) ?? []), sheet]);
  return standing;
}

/** Whether no other sheet stands under a name that differs by the day of issue only. */
export const standsAlone = (name: string, standing: Standing): boolean => standing.get(undated(name))?.length === 1;

const undated = (name: string) => name.slice(0, name.lastIndexOf("_"));

/**
 * Issued is issued: a sheet that a customer may hold stays until the job's revision rises. Says why `pdf` may not be written
 * into `folder`: there, under the same number, revision, template and head, stands a sheet with other figures that was no
 * draft, be it of another day. A job that is a draft may replace it, and is told so.
 */
export function checkIssued(
  name: string,
  pdf: Uint8Array,
  folder: string,
  standing: Standing,
  io: Io,
): Diagnostic | undefined {
  const now = readIssued(pdf);
  if (!now) return undefined;
  const alike = (standing.get(undated(name)) ?? []).filter((other) => !now.draft || other === name);
  const other = alike.find((each) => {
    const read = io.readFile(join(folder, each), LARGEST);
    const before = read.kind === "read" ? readIssued(read.bytes) : undefined;
    return before && !before.draft && before.sheet === now.sheet && before.mark !== now.mark;
  });
  if (other === undefined) return undefined;
  return now.draft ? draftOver(other) : otherFigures(other);
}

const otherFigures = (standing: string): Diagnostic => ({
  severity: "error",
  code: "make/issued",
  message: `\`${standing}\` was issued with other figures; it was left as it is`,
  note: "a customer may hold it: two sheets of one revision must not say different things",
  hint: "raise `revision`, with `replaces:` and `because:`; write `draft: true` while nobody holds it; or take the old file away",
});

const draftOver = (standing: string): Diagnostic => ({
  severity: "warning",
  code: "make/draft-over-issued",
  message: `\`${standing}\` was issued with other figures, and a draft now stands in its place`,
  hint: "raise `revision` before the sheet is handed out again",
});
