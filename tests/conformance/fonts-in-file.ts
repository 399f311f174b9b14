import { type PageContent, pageContents } from "./page-content.ts";
import { content, deref, get, once, type PdfFile } from "./pdf-file.ts";
import { type Dict, isKind, nameOf, type Value } from "./values.ts";

/** A font of the file and the codes that pages show with it. */
export type UsedFont = {
  readonly name: string;
  readonly dict: Dict;
  readonly descendant: Dict | undefined;
  readonly codes: ReadonlySet<number>;
};

/** Every font that a page shows text with. All of ours are composite: two bytes a code. */
export const usedFonts = once((file: PdfFile): readonly UsedFont[] => {
  const codes = new Map<Dict, Set<number>>();
  for (const page of pageContents(file)) {
    for (const { dict, shown } of shownTexts(file, page)) {
      const held = codes.get(dict) ?? new Set<number>();
      codes.set(dict, held);
      for (let i = 0; i + 1 < shown.length; i += 2) held.add(shown.charCodeAt(i) * 256 + shown.charCodeAt(i + 1));
    }
  }
  return [...codes].map(([dict, held]) => {
    const descendants = get(file, dict, "DescendantFonts");
    const descendant = Array.isArray(descendants) ? deref(file, descendants[0]) : undefined;
    return {
      name: nameOf(dict.entries.get("BaseFont")) ?? "",
      dict,
      descendant: isKind(descendant, "dict") ? descendant : undefined,
      codes: held,
    };
  });
});

function shownTexts(file: PdfFile, { operations, resources }: PageContent) {
  let dict: Dict | undefined;
  return operations.flatMap(({ operator, operands }) => {
    if (operator === "Tf") {
      const found = get(file, resources, "Font", nameOf(operands[0]) ?? "");
      dict = isKind(found, "dict") ? found : undefined;
    }
    if (dict === undefined || !["Tj", "TJ", "'", '"'].includes(operator)) return [];
    const parts: readonly Value[] = Array.isArray(operands[0]) ? operands[0] : operands.slice(-1);
    const font = dict;
    return parts.flatMap((part) => (isKind(part, "text") ? [{ dict: font, shown: part.text }] : []));
  });
}

/** What a font's ToUnicode maps, by code: hex of the UTF-16. */
export function unicodeOf(file: PdfFile, { dict }: UsedFont): ReadonlyMap<number, string> {
  const stream = get(file, dict, "ToUnicode");
  const found = new Map<number, string>();
  if (!isKind(stream, "stream")) return found;
  const cmap = content(file, stream).toString("latin1");
  for (const [, body] of cmap.matchAll(/beginbfchar([\s\S]*?)endbfchar/g))
    for (const [, code, to] of body!.matchAll(/<([0-9a-f]+)>\s*<([0-9a-f ]+)>/gi))
      found.set(Number.parseInt(code!, 16), to!);
  for (const [, body] of cmap.matchAll(/beginbfrange([\s\S]*?)endbfrange/g)) {
    for (const [, low, high, list] of body!.matchAll(/<([0-9a-f]+)>\s*<([0-9a-f]+)>\s*(\[[^\]]*\]|<[0-9a-f ]+>)/gi)) {
      const to = [...list!.matchAll(/<([0-9a-f ]+)>/gi)].map((match) => match[1]!);
      const from = Number.parseInt(low!, 16);
      for (let code = from; code <= Number.parseInt(high!, 16); code++) found.set(code, to[code - from] ?? to[0]!);
    }
  }
  return found;
}

/** The embedded TrueType program. */
export function programOf(file: PdfFile, { descendant }: UsedFont): Buffer | undefined {
  const stream = get(file, descendant, "FontDescriptor", "FontFile2");
  return isKind(stream, "stream") ? content(file, stream) : undefined;
}

/** Where the tables of a TrueType program start. */
function tablesOf(program: Buffer): ReadonlyMap<string, number> {
  const at = (i: number) => 12 + 16 * i;
  return new Map(
    Array.from({ length: program.readUInt16BE(4) }, (_, i) => [
      program.toString("latin1", at(i), at(i) + 4),
      program.readUInt32BE(at(i) + 8),
    ]),
  );
}

/** Advance and outline box of each glyph, in ems (OpenType: head, loca, glyf); no box for one without an outline. */
export function glyphBoxes(program: Buffer) {
  const tables = tablesOf(program);
  const em = program.readUInt16BE(tables.get("head")! + 18);
  const long = program.readUInt16BE(tables.get("head")! + 50) === 1;
  const loca = tables.get("loca")!;
  const offset = (glyph: number) =>
    long ? program.readUInt32BE(loca + 4 * glyph) : 2 * program.readUInt16BE(loca + 2 * glyph);
  return programWidths(program).map((width, glyph) => {
    const at = tables.get("glyf")! + offset(glyph);
    const side = (i: number) => program.readInt16BE(at + 2 * i) / em;
    const box = offset(glyph) === offset(glyph + 1) ? undefined : ([side(1), side(2), side(3), side(4)] as const);
    return { advance: width / 1000, box };
  });
}

/** Advance widths of a TrueType program, in thousandths of an em (OpenType: head, hhea, hmtx, maxp). */
export function programWidths(program: Buffer): readonly number[] {
  const tables = tablesOf(program);
  const em = program.readUInt16BE(tables.get("head")! + 18);
  const glyphs = program.readUInt16BE(tables.get("maxp")! + 4);
  const metrics = program.readUInt16BE(tables.get("hhea")! + 34);
  const start = tables.get("hmtx")!;
  return Array.from(
    { length: glyphs },
    (_, glyph) => (program.readUInt16BE(start + 4 * Math.min(glyph, metrics - 1)) * 1000) / em,
  );
}

/** Widths as the font's dictionary states them, by code. */
export function statedWidths(file: PdfFile, { descendant }: UsedFont): ReadonlyMap<number, number> {
  const found = new Map<number, number>();
  const list = get(file, descendant, "W");
  if (!Array.isArray(list)) return found;
  for (let i = 0; i < list.length; ) {
    const first = list[i] as number;
    const next = deref(file, list[i + 1]);
    if (Array.isArray(next)) {
      next.forEach((width, at) => {
        found.set(first + at, width as number);
      });
      i += 2;
    } else {
      for (let code = first; code <= (next as number); code++) found.set(code, list[i + 2] as number);
      i += 3;
    }
  }
  return found;
}
