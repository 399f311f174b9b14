import { deflateSync } from "node:zlib";
import { type UsedFont, usedFonts } from "./fonts-in-file.ts";
import {
  allDictionaries,
  catalog,
  content,
  get,
  ofType,
  type PdfFile,
  pagesOf,
  readPdf,
  writePdf,
} from "./pdf-file.ts";
import { type Element, elementsOf } from "./structure-tree.ts";
import { dict, isKind, name, nameOf, type Stream, type Value } from "./values.ts";

export function edited(change: (file: PdfFile) => unknown): (bytes: Buffer) => Buffer {
  return (bytes) => {
    const file = readPdf(bytes);
    change(file);
    return writePdf(file);
  };
}

export function stream(held: Record<string, Value>, data: Buffer): Stream {
  return { kind: "stream", entries: new Map(Object.entries({ ...held, Length: data.length })), data };
}

export function entries(value: Value | undefined): Map<string, Value> {
  if (!isKind(value, "dict") && !isKind(value, "stream")) throw new Error("nothing there to harm");
  return value.entries;
}

export function rewrite(found: Stream, data: Buffer): void {
  found.data = deflateSync(data);
  found.entries.set("Filter", name("FlateDecode"));
  found.entries.set("Length", found.data.length);
}

export function xmp(pattern: RegExp, instead: string) {
  return edited((file) => {
    const found = get(file, catalog(file), "Metadata");
    if (!isKind(found, "stream")) throw new Error("no metadata");
    const before = content(file, found).toString("utf8");
    if (!pattern.test(before)) throw new Error(`no ${pattern} in the metadata`);
    rewrite(found, Buffer.from(before.replace(pattern, instead)));
  });
}

export function page(change: (operators: string) => string) {
  return edited((file) => {
    const found = get(file, pagesOf(file)[0]!.page, "Contents");
    if (!isKind(found, "stream")) throw new Error("no content");
    rewrite(found, Buffer.from(change(content(file, found).toString("latin1")), "latin1"));
  });
}

export function element(type: string, change: (found: Element, file: PdfFile) => unknown) {
  return edited((file) => {
    const found = elementsOf(file).find((one) => one.type === type);
    if (!found) throw new Error(`no ${type} to harm`);
    change(found, file);
  });
}

export const mapRole = (from: string, to: string) =>
  edited((file) => entries(get(file, catalog(file), "StructTreeRoot")).set("RoleMap", dict({ [from]: name(to) })));

export const font = (change: (found: UsedFont, file: PdfFile) => unknown) =>
  edited((file) => change(usedFonts(file)[0]!, file));

export function bySubtype(file: PdfFile, subtype: string) {
  const found = allDictionaries(file).find((one) => nameOf(one.entries.get("Subtype")) === subtype);
  if (!found) throw new Error(`no ${subtype} to harm`);
  return found;
}

export const spec = (file: PdfFile) => ofType(file, "Filespec")[0]!;
export const withAnnotations = (file: PdfFile) => pagesOf(file).find(({ page }) => page.entries.has("Annots"))!.page;

export function firstList(file: PdfFile): Value[] {
  const nums = get(file, catalog(file), "StructTreeRoot", "ParentTree", "Nums") as Value[];
  return get(file, nums[1]) as Value[];
}
export function swapFirst(list: Value[]): void {
  const at = list.findIndex((one, i) => i > 0 && JSON.stringify(one) !== JSON.stringify(list[0]));
  [list[0], list[at]] = [list[at]!, list[0]!];
}
