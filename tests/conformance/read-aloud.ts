import { textOfPages } from "./page-text.ts";
import type { PdfFile } from "./pdf-file.ts";
import { type Element, elementsOf } from "./structure-tree.ts";
import { textOf } from "./values.ts";

/** A line of what a screen reader would say: the kind of element, and its words. */
export type Said = { readonly type: string; readonly words: string };

/** The sheet in reading order, as its structure tree tells it: a table row by row, a figure by its alternative text. */
export function readAloud(file: PdfFile): readonly Said[] {
  const words = textOfPages(file);
  const wordsOf = (element: Element): string => {
    const actual = textOf(element.dict.entries.get("ActualText"));
    if (actual !== undefined) return actual;
    const own = element.content.map(({ page, mcid }) => words.get(`${page}/${mcid}`) ?? "").join("");
    return own + element.children.map(wordsOf).join("");
  };
  const root = elementsOf(file)[0];
  const say = (element: Element): readonly Said[] => {
    const holdsBlocks = element.type === "Caption" && element.children.length > 0;
    if (holdsBlocks || GROUPS.has(element.type)) return element.children.flatMap(say);
    if (element.type === "Figure")
      return [
        { type: "Figure", words: textOf(element.dict.entries.get("Alt")) ?? "" },
        ...element.children.flatMap(say),
      ];
    const between = { TR: " | ", LI: " " }[element.type];
    const words = between
      ? element.children.map((kid) => wordsOf(kid).trim()).join(between)
      : wordsOf(element).replace(/\s+/g, " ");
    return [{ type: element.type, words: words.trim() }];
  };
  return root?.children.flatMap(say) ?? [];
}

const GROUPS = new Set(["Table", "THead", "TBody", "L", "Div"]);
