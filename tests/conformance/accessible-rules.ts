import { programOf, unicodeOf, usedFonts } from "./fonts-in-file.ts";
import { pageContents, paints } from "./page-content.ts";
import { type Box, paintedBoxes } from "./painted-box.ts";
import { catalog, deref, dictionaries, get, listOf, ofType, type PdfFile, pagesOf } from "./pdf-file.ts";
import { type Rule, when } from "./rule.ts";
import {
  attribute,
  called,
  type Element,
  elements,
  elementsOf,
  parentTree,
  remapped,
  standardType,
} from "./structure-tree.ts";
import { type Dict, isKind, nameOf, type Stream, textOf } from "./values.ts";
import { property, xmpOf } from "./xmp-packet.ts";

const ua = (rule: string, faults: Rule["faults"]): Rule => ({ standard: "PDF/UA-1", rule, faults });

/** Machine rules of PDF/UA-1 (ISO 14289-1). */
export const accessibleRules: readonly Rule[] = [
  ua("5-1", (file) => when(property(xmpOf(file) ?? "", "pdfuaid:part") !== "1", "no pdfuaid:part of 1")),
  ua("6.2-1", (file) => when(get(file, catalog(file), "MarkInfo", "Marked") !== true, "not marked")),
  ua("7.1-3", (file) =>
    pageContents(file).flatMap(({ operations, number }) =>
      operations
        .filter((one) => paints(one) && !one.marks.some(({ tag, mcid }) => tag === "Artifact" || mcid !== undefined))
        .map(({ operator }) => `page ${number}: ${operator} is neither tagged nor an artifact`),
    ),
  ),
  ua("7.1-1, 7.1-2", (file) =>
    pageContents(file).flatMap(({ operations, number }) =>
      operations
        .filter(
          ({ marks }) => marks.some(({ tag }) => tag === "Artifact") && marks.some(({ mcid }) => mcid !== undefined),
        )
        .map(({ operator }) => `page ${number}: ${operator} is tagged and an artifact`),
    ),
  ),
  ua("7.1-5", (file) =>
    elementsOf(file)
      .map(({ dict }) => nameOf(dict.entries.get("S")) ?? "")
      .filter((type) => standardType(file, type) === undefined)
      .map((type) => `${type} is no standard type, nor mapped to one`),
  ),
  ua("7.1-7", (file) => remapped(file).map((type) => `${type} is a standard type, and mapped`)),
  ua("7.1-8", (file) => when(xmpOf(file) === undefined, "no metadata stream")),
  ua("7.1-9", (file) => when(!property(xmpOf(file) ?? "", "dc:title"), "no dc:title")),
  ua("7.1-10", (file) =>
    when(get(file, catalog(file), "ViewerPreferences", "DisplayDocTitle") !== true, "the title is not displayed"),
  ),
  ua("7.1-4", (file) => when(get(file, catalog(file), "MarkInfo", "Suspects") === true, "tags are suspect")),
  ua("7.1-12", (file) =>
    elementsOf(file).flatMap((element) => {
      const above = element.parent?.dict ?? get(file, catalog(file), "StructTreeRoot");
      return when(get(file, element.dict, "P") !== above, `${called(element)} names another parent, or none`);
    }),
  ),
  ua("7.1-11", (file) => when(!isKind(get(file, catalog(file), "StructTreeRoot"), "dict"), "no structure tree")),
  ua("7.2-29", (file) =>
    dictionaries(file).flatMap(([number, { entries }]) => {
      const tag = textOf(deref(file, entries.get("Lang")));
      return when(tag !== undefined && !/^[a-z]{2,3}(-[a-z0-9]{2,8})*$/i.test(tag), `object ${number}: Lang ${tag}`);
    }),
  ),
  ua("7.2-34", (file) => when(!textOf(get(file, catalog(file), "Lang")), "no language")),
  ua("7.3-1", (file) =>
    elements(file, "Figure")
      .filter(({ dict }) => !textOf(dict.entries.get("Alt")) && !textOf(dict.entries.get("ActualText")))
      .map((figure) => `${called(figure)} says nothing`),
  ),
  ua("7.4.2-1", (file) => {
    let before = 0;
    return elementsOf(file).flatMap((element) => {
      const level = Number(/^H([1-6])$/.exec(element.type)?.[1]);
      if (!level) return [];
      const skips = level > before + 1;
      const fault = `${called(element)} after ${before === 0 ? "no heading" : `H${before}`}`;
      before = level;
      return when(skips, fault);
    });
  }),
  ua("7.18.3-1", (file) =>
    pagesOf(file)
      .filter(({ page }) => page.entries.has("Annots") && nameOf(page.entries.get("Tabs")) !== "S")
      .map(({ number }) => `page ${number}: annotations, but its tabs do not follow the structure`),
  ),
  ua("7.18.5-1", (file) => {
    const tagged = new Set(elements(file, "Link").flatMap(({ annotations }) => annotations));
    return links(file).flatMap(([number]) => when(!tagged.has(number), `link ${number} hangs in no Link element`));
  }),
  ua("7.18.5-2", (file) =>
    links(file).flatMap(([number, { entries }]) =>
      when(!textOf(entries.get("Contents")), `link ${number}: no Contents`),
    ),
  ),
  ua("7.21.4.1-1", (file) =>
    usedFonts(file).flatMap((font) => when(programOf(file, font) === undefined, `${font.name} is not embedded`)),
  ),
  ua("7.21.7-1", (file) =>
    usedFonts(file).flatMap((font) => {
      const known = unicodeOf(file, font);
      return [...font.codes]
        .filter((code) => !known.has(code) || /^(0000|fffe|feff)$/i.test(known.get(code)!))
        .map((code) => `${font.name}: glyph ${code} maps to no letter`);
    }),
  ),
  ua("7.21.8-1", (file) =>
    usedFonts(file).flatMap(({ name, codes }) => when(codes.has(0), `${name}: the missing glyph is shown`)),
  ),
  // Beyond the public list, in our own words.
  ua("7.1 parent tree", parentTreeFaults),
  ua("7.1 content", (file) => {
    const used = new Set(
      pageContents(file).flatMap(({ number, operations }) =>
        operations.flatMap(({ marks }) =>
          marks.flatMap(({ mcid }) => (mcid === undefined ? [] : [`${number}/${mcid}`])),
        ),
      ),
    );
    const hung = elementsOf(file).flatMap(({ content }) => content.map(({ page, mcid }) => `${page}/${mcid}`));
    return [
      ...[...used].filter((one) => !hung.includes(one)).map((one) => `content ${one} hangs in no element`),
      ...hung
        .filter((one, i) => !used.has(one) || hung.indexOf(one) !== i)
        .map((one) => `${one} is not there, or hangs twice`),
    ];
  }),
  ua("7.2 nesting", (file) =>
    elementsOf(file).flatMap(({ parent, ...element }) => {
      const homes = HOMES[element.type];
      return when(
        homes !== undefined && !homes.includes(parent?.type ?? ""),
        `${called(element)} in ${parent?.type ?? "nothing"}`,
      );
    }),
  ),
  ua("7.3 box", (file) =>
    elements(file, "Figure")
      .filter((figure) => !Array.isArray(attribute(file, figure, "Layout", "BBox")))
      .map((figure) => `${called(figure)} has no box`),
  ),
  ua("7.3 box covers", (file) => {
    const painted = paintedBoxes(file);
    return elements(file, "Figure").flatMap((figure) => {
      const box = attribute(file, figure, "Layout", "BBox");
      if (!Array.isArray(box)) return [];
      return contentIn(figure)
        .map(({ page, mcid }) => painted.get(`${page}/${mcid}`) ?? (box as unknown as Box))
        .filter((inside) => inside.some((side, i) => (i < 2 ? 1 : -1) * ((box[i] as number) - side) > PEN))
        .map((inside) => `${called(figure)}: paints ${inside.map((side) => side.toFixed(1))} beyond ${box}`);
    });
  }),
];

/** A line on the edge of a figure reaches beyond its box by half of its width [pt]. */
const PEN = 1;

const contentIn = ({ content, children }: Element): Element["content"] => [...content, ...children.flatMap(contentIn)];

/** Where an element may hang, for those that may not hang anywhere. */
const HOMES: Readonly<Record<string, readonly string[]>> = {
  LI: ["L"],
  Lbl: ["LI"],
  LBody: ["LI"],
  THead: ["Table"],
  TBody: ["Table"],
  TFoot: ["Table"],
  TR: ["Table", "THead", "TBody", "TFoot"],
  TH: ["TR"],
  TD: ["TR"],
  Caption: ["Table", "L", "Div"],
  Document: [""],
};

const links = (file: PdfFile): readonly (readonly [number, Dict | Stream])[] =>
  dictionaries(file).filter(([, { entries }]) => nameOf(entries.get("Subtype")) === "Link");

/** From content to element: what the parent tree says of each content and annotation must be the element that holds it. */
function parentTreeFaults(file: PdfFile): readonly string[] {
  const tree = parentTree(file);
  const all = elementsOf(file);
  const pages = new Map(pagesOf(file).map(({ number, page }) => [number, page.entries.get("StructParents")]));
  const content = all.flatMap((element) =>
    element.content.flatMap(({ page, mcid }) => {
      const list = listOf(file, tree.get(Number(pages.get(page) ?? Number.NaN)));
      const found = list[mcid];
      return when(
        !isKind(found, "ref") || found.number !== element.number,
        `${called(element)}: content ${page}/${mcid}`,
      );
    }),
  );
  const annotations = all.flatMap((element) =>
    element.annotations.flatMap((number) => {
      const found = tree.get(Number(get(file, file.objects.get(number), "StructParent") ?? Number.NaN));
      return when(!isKind(found, "ref") || found.number !== element.number, `${called(element)}: annotation ${number}`);
    }),
  );
  return [...content, ...annotations, ...when(ofType(file, "StructTreeRoot").length !== 1, "not one structure tree")];
}
