import { unicodeOf, usedFonts } from "./fonts-in-file.ts";
import { pageContents, paints } from "./page-content.ts";
import { spokenPieces } from "./page-text.ts";
import { allDictionaries, catalog, deref, get, once, type PdfFile } from "./pdf-file.ts";
import { type Rule, when } from "./rule.ts";
import { called, type Element, elements, elementsOf, remapped, standardType } from "./structure-tree.ts";
import { isKind, nameOf, textOf } from "./values.ts";
import { property, xmpOf } from "./xmp-packet.ts";

const a3a = (rule: string, faults: Rule["faults"]): Rule => ({ standard: "PDF/A-3a", rule, faults });

/** What level A of PDF/A-3 (ISO 19005-3) asks beyond level B: meaning of letters, logical structure, words in place of pictures. */
export const levelARules: readonly Rule[] = [
  a3a("6.2.11.7-1", (file) =>
    usedFonts(file).flatMap((font) => {
      const known = unicodeOf(file, font);
      return [...font.codes]
        .filter((code) => !known.get(code))
        .map((code) => `${font.name}: glyph ${code} is no letter`);
    }),
  ),
  a3a("6.2.11.7-2", (file) =>
    usedFonts(file).flatMap((font) =>
      [...unicodeOf(file, font)]
        .filter(([, hex]) => unitsOf(hex).some((unit) => unit === 0 || unit === 0xfeff || unit === 0xfffe))
        .map(([code]) => `${font.name}: glyph ${code} is mapped to what is no letter`),
    ),
  ),
  a3a("6.2.11.7-3", (file) => {
    const replaced = replacedContent(file);
    return spokenPieces(file)
      .filter(({ key, text }) => /\p{Co}/u.test(text) && !replaced.has(key))
      .map(({ key }) => `content ${key}: a letter for private use, and no text in its place`);
  }),
  a3a("6.6.4-3", (file) => {
    const xmp = xmpOf(file) ?? "";
    const claim = `${property(xmp, "pdfaid:part")}${property(xmp, "pdfaid:conformance")}`;
    return when(claim !== "3A", `claims ${claim}`);
  }),
  a3a("6.7.2-1", (file) => when(get(file, catalog(file), "MarkInfo", "Marked") !== true, "not marked")),
  a3a("6.7.3-1", (file) => {
    const root = get(file, catalog(file), "StructTreeRoot");
    return when(!isKind(root, "dict") || elementsOf(file).length === 0, "no structure tree");
  }),
  a3a("6.7.3-2", (file) => [
    ...elementsOf(file)
      .map(({ dict }) => nameOf(dict.entries.get("S")) ?? "")
      .filter((type) => standardType(file, type) === undefined)
      .map((type) => `${type} is mapped to no standard type`),
    ...remapped(file).map((type) => `${type} is mapped to another`),
  ]),
  a3a("6.7.4-1", (file) => [
    ...when(!textOf(get(file, catalog(file), "Lang")), "the document's language is not known"),
    ...languages(file)
      .filter((tag) => tag !== "" && !/^[a-z]{1,8}(-[a-z0-9]{1,8})*$/i.test(tag))
      .map((tag) => `${tag} is no language`),
  ]),
  // Beyond the public list, in our own words.
  a3a("6.7.3 artifacts", (file) =>
    pageContents(file).flatMap(({ number, operations }) =>
      operations
        .filter(({ operator, operands }) => /^B[DM]C$/.test(operator) && nameOf(operands[0]) === "Artifact")
        .filter(({ operands }) => !ARTIFACTS.has(nameOf(get(file, operands[1], "Type")) ?? ""))
        .map(() => `page ${number}: an artifact of no kind`),
    ),
  ),
  a3a("6.7.3 word breaks", (file) => {
    const pieces = new Map<string, readonly string[]>();
    for (const { key, text } of spokenPieces(file)) pieces.set(key, [...(pieces.get(key) ?? []), text]);
    return elementsOf(file).flatMap((element) => {
      const texts = element.content.flatMap(({ page, mcid }) => pieces.get(`${page}/${mcid}`) ?? []);
      return texts.flatMap((text, i) => {
        const next = texts[i + 1] ?? " ";
        return when(!/\s$/.test(text) && !/^\s/.test(next), `${called(element)}: "${text}" runs into "${next}"`);
      });
    });
  }),
  a3a("6.7.5 alternate descriptions", (file) =>
    elements(file, "Figure", "Formula").flatMap((one) =>
      when(!textOf(one.dict.entries.get("Alt"))?.trim(), `${called(one)} is not described`),
    ),
  ),
  a3a("6.7.6 annotations", (file) =>
    allDictionaries(file)
      .filter(({ entries }) => nameOf(deref(file, entries.get("Type"))) === "Annot")
      .flatMap(({ entries }) => when(!textOf(get(file, entries.get("Contents"))), "an annotation without words")),
  ),
  a3a("6.7.7 replacement text", (file) => {
    const spoken = new Set(spokenPieces(file).map(({ key }) => key));
    const replaced = replacedContent(file);
    const painted = pageContents(file).flatMap(({ number, operations }) =>
      operations
        .filter(paints)
        .flatMap(({ marks }) => marks.flatMap(({ mcid }) => mcid ?? []).map((id) => `${number}/${id}`)),
    );
    return [...new Set(painted)]
      .filter((key) => !spoken.has(key) && !replaced.has(key))
      .map((key) => `content ${key} is drawn, and says nothing`);
  }),
];

/** ISO 32000-1, table 330. */
const ARTIFACTS = new Set(["Pagination", "Layout", "Page", "Background"]);

const unitsOf = (hex: string): readonly number[] =>
  (hex.replaceAll(" ", "").match(/.{4}/g) ?? []).map((unit) => Number.parseInt(unit, 16));

/** Content, by `page/mcid`, whose element or one above it has words of its own in place of it. */
const replacedContent = once((file: PdfFile): ReadonlySet<string> => {
  const replaces = (element: Element | undefined): boolean =>
    element !== undefined &&
    (Boolean(textOf(element.dict.entries.get("ActualText")) ?? textOf(element.dict.entries.get("Alt"))) ||
      replaces(element.parent));
  return new Set(
    elementsOf(file)
      .filter(replaces)
      .flatMap(({ content }) => content.map(({ page, mcid }) => `${page}/${mcid}`)),
  );
});

/** Every language that the file names: of the document, of its elements, of content. */
function languages(file: PdfFile): readonly string[] {
  const marked = pageContents(file).flatMap(({ operations }) =>
    operations.filter(({ operator }) => operator === "BDC").map(({ operands }) => get(file, operands[1], "Lang")),
  );
  const held = allDictionaries(file).map(({ entries }) => deref(file, entries.get("Lang")));
  return [...marked, ...held].flatMap((value) => textOf(value) ?? []);
}
