import { join } from "node:path";
import { MARK_PATTERN } from "../../embed/issue-mark.ts";
import type { Io } from "../../io/io.ts";
import type { Issue } from "./register-text.ts";

/** Upper limit of a sheet [bytes]; larger files are not ours. */
const MAX_BYTES = 64 * 1024 * 1024;
const IDENTIFIER = new RegExp(
  `<dc:identifier>([^<]{1,2000}) revision ([^<]{1,200}) figures (\\d{1,6}) mark (${MARK_PATTERN})( draft)?</dc:identifier>`,
);

/** A sheet of ours: its issue, draft flag and shop. */
type SheetOnDisk = Issue & { readonly draft: boolean; readonly shop: string };

/** Reads the issue of a sheet from its metadata; undefined for other files. */
export function readSheet(folder: string, name: string, io: Io): SheetOnDisk | undefined {
  const read = io.readFile(join(folder, name), MAX_BYTES);
  if (read.kind !== "read") return undefined;
  const text = Buffer.from(read.bytes.buffer, read.bytes.byteOffset, read.bytes.byteLength).toString("latin1");
  const found = IDENTIFIER.exec(text);
  if (!found) return undefined;
  const [ticket, revision, figures, mark] = found.slice(1, 5).map(decodeXml) as [string, string, string, string];
  const [, , sheet = "", ...rest] = name.replace(/\.pdf$/, "").split("_");
  const shop = /<dc:creator><rdf:Seq><rdf:li>([^<]*)</.exec(text)?.[1] ?? "";
  return {
    date: rest.at(-1) ?? "",
    ticket,
    revision,
    sheet,
    file: name,
    mark,
    figures: Number(figures),
    draft: found[5] !== undefined,
    shop: decodeXml(shop),
  };
}

/** The sheets of a shop in a folder that were issued, not drafts. */
export const issuedSheets = (folder: string, shop: string, io: Io): readonly Issue[] =>
  io
    .listFolder(folder)
    .filter((name) => name.endsWith(".pdf"))
    .flatMap((name) => readSheet(folder, name, io) ?? [])
    .filter((sheet) => !sheet.draft && sheet.shop === shop);

const ENTITIES: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"' };
const decodeXml = (latin1: string) =>
  Buffer.from(latin1, "latin1")
    .toString("utf8")
    .replace(/&(amp|lt|gt|quot);/g, (_, name: string) => ENTITIES[name]!);
