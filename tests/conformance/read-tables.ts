import { textOfPages } from "./page-text.ts";
import { once, type PdfFile } from "./pdf-file.ts";
import { type Element, elementsOf } from "./structure-tree.ts";
import { grids, headersOf, identifiers, scopeOf } from "./table-grid.ts";
import { textOf } from "./values.ts";

/** A cell of a table's body with what a reader learns of it from the tree: the heads that it names, in words. */
export type ReadCell = {
  readonly text: string;
  /** A head of its row itself. */
  readonly isHead: boolean;
  /** Heads of its column, outermost first. */
  readonly column: readonly string[];
  readonly row: readonly string[];
};
export type ReadTable = {
  /** What the table's own Caption says; undefined without one. */
  readonly caption: string | undefined;
  /** By rows of the body. */
  readonly rows: readonly (readonly ReadCell[])[];
};

/** Every table of a file, each cell's heads found by their identifiers alone. */
export const readTables = once((file: PdfFile): readonly ReadTable[] => {
  const byNumber = new Map(elementsOf(file).map((element) => [element.number, element]));
  const headOf = (id: string) => byNumber.get(identifiers(file).get(id) ?? -1);
  return grids(file).map(({ table, cells }) => {
    const caption = table.children.find(({ type }) => type === "Caption");
    const body = cells.filter(({ head }) => !head);
    return {
      caption: caption && wordsOf(file, caption),
      rows: [...new Set(body.map(({ row }) => row))].map((row) =>
        body
          .filter((one) => one.row === row)
          .map(({ cell }): ReadCell => {
            const heads = headersOf(file, cell).flatMap((id) => headOf(id) ?? []);
            const words = (scope: string) =>
              heads.filter((head) => scopeOf(file, head) === scope).map((head) => wordsOf(file, head));
            return {
              text: wordsOf(file, cell),
              isHead: cell.type === "TH",
              column: words("Column"),
              row: words("Row"),
            };
          }),
      ),
    };
  });
});

/** The words of an element and of those in it, blocks apart; what stands in place of a shape counts. */
export function wordsOf(file: PdfFile, element: Element): string {
  const texts = textOfPages(file);
  const say = (one: Element): string => {
    const actual = textOf(one.dict.entries.get("ActualText"));
    if (actual !== undefined) return actual;
    const own = one.content.map(({ page, mcid }) => texts.get(`${page}/${mcid}`) ?? "");
    return [...own, ...one.children.map(say)].join(one.type === "Caption" || one.type === "LI" ? " " : "");
  };
  return say(element).replace(/\s+/g, " ").trim();
}
