import { join } from "node:path";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Io } from "../../io/io.ts";

/** Identity in the XMP metadata of a sheet: number and revision, hash of its figures, draft flag. */
type IssueMark = { readonly sheet: string; readonly mark: string; readonly draft: boolean };

/** Upper limit of a sheet [bytes]; larger files are not ours. */
const MAX_BYTES = 64 * 1024 * 1024;

/** Parses the identity of a sheet; undefined for other PDFs. */
export function parseIssueMark(pdf: Uint8Array): IssueMark | undefined {
  const text = Buffer.from(pdf.buffer, pdf.byteOffset, pdf.byteLength).toString("latin1");
  const found = /<dc:identifier>([^<]{1,2000}) figures ([0-9a-f]{8})( draft)?<\/dc:identifier>/.exec(text);
  return found ? { sheet: found[1]!, mark: found[2]!, draft: found[3] !== undefined } : undefined;
}

/** Sheets in a folder by file name without its date; listed once for a batch. */
export type ExistingSheets = ReadonlyMap<string, readonly string[]>;

export function listExistingSheets(folder: string, io: Io): ExistingSheets {
  const sheets = io.listFolder(folder).filter((name) => name.endsWith(".pdf"));
  const existing = new Map<string, string[]>();
  for (const sheet of sheets) existing.set(withoutDate(sheet), [...(existing.get(withoutDate(sheet)) ?? []), sheet]);
  return existing;
}

/** Whether the folder holds no sheet of that name with another date. */
export const isOnlyIssue = (name: string, existing: ExistingSheets): boolean =>
  existing.get(withoutDate(name))?.length === 1;

const withoutDate = (name: string) => name.slice(0, name.lastIndexOf("_"));

/**
 * Protects issued sheets: returns an error if the folder holds a sheet of the same number, revision, template and head, of any
 * date, that was no draft and has other figures. A draft may overwrite it, with a warning.
 */
export function checkIssued(
  name: string,
  pdf: Uint8Array,
  folder: string,
  existing: ExistingSheets,
  io: Io,
): Diagnostic | undefined {
  const current = parseIssueMark(pdf);
  if (!current) return undefined;
  const sameName = (existing.get(withoutDate(name)) ?? []).filter((other) => !current.draft || other === name);
  const other = sameName.find((each) => {
    const read = io.readFile(join(folder, each), MAX_BYTES);
    const before = read.kind === "read" ? parseIssueMark(read.bytes) : undefined;
    return before && !before.draft && before.sheet === current.sheet && before.mark !== current.mark;
  });
  if (other === undefined) return undefined;
  return current.draft ? draftWarning(other) : issuedError(other);
}

const issuedError = (existing: string): Diagnostic => ({
  severity: "error",
  code: "make/issued",
  message: `\`${existing}\` was issued with other figures; it was left as it is`,
  note: "a customer may hold it: two sheets of one revision must not say different things",
  hint: "raise `revision`, with `replaces:` and `because:`; write `draft: true` while nobody holds it; or take the old file away",
});

const draftWarning = (existing: string): Diagnostic => ({
  severity: "warning",
  code: "make/draft-over-issued",
  message: `\`${existing}\` was issued with other figures, and a draft now stands in its place`,
  hint: "raise `revision` before the sheet is handed out again",
});
