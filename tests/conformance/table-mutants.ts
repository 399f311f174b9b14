import { edited, element, entries } from "./harm.ts";
import { get, type PdfFile } from "./pdf-file.ts";
import { type Element, elements } from "./structure-tree.ts";
import { name, text, type Value } from "./values.ts";

const kids = (file: PdfFile, { dict }: Element) => get(file, dict.entries.get("K")) as Value[];
const attributes = (file: PdfFile, { dict }: Element) => entries(get(file, dict.entries.get("A")));
const become = (type: string) => (found: Element) => found.dict.entries.set("S", name(type));
/** The first cell of a table's body that holds a value. */
const value = (change: (cell: Element, file: PdfFile) => unknown) =>
  edited((file) => change(elements(file, "TD").find(({ content }) => content.length > 0)!, file));

/** For each rule on tables a small harm that breaks it. */
export const tableMutants: Readonly<Record<string, (bytes: Buffer) => Buffer>> = {
  "PDF/UA-1 7.2-3": element("Table", (table, file) => {
    const [first, second, ...others] = kids(file, table);
    table.dict.entries.set("K", [second!, first!, ...others]);
  }),
  "PDF/UA-1 7.2-10": element("TD", become("P")),
  "PDF/UA-1 7.2-11, 7.2-14": element("TBody", become("THead")),
  "PDF/UA-1 7.2-15": edited((file) => {
    const [above, below] = elements(file, "TBody")[0]!.children as [Element, Element];
    attributes(file, above.children[1]!).set("RowSpan", 2);
    attributes(file, below.children[0]!).set("ColSpan", 2);
  }),
  "PDF/UA-1 7.2-36, 7.2-37": element("TBody", ({ children }) => become("TD")(children[0]!)),
  "PDF/UA-1 7.2-42": element("TBody", ({ children }, file) => kids(file, children[0]!).pop()),
  "PDF/UA-1 7.5-1": element("TH", (head, file) => attributes(file, head).delete("Scope")),
  "PDF/UA-1 7.5-2": value((cell, file) => attributes(file, cell).set("Headers", [text("h9999")])),
  "PDF/UA-1 7.5 identifiers": element("TH", ({ dict }) => dict.entries.set("ID", text("h9999"))),
  "PDF/UA-1 7.5 headers": value((cell, file) => (get(file, attributes(file, cell).get("Headers")) as Value[]).pop()),
  "PDF/UA-1 7.5 head and body": element("THead", become("TBody")),
};
