import type { Tag } from "../../layout/page.ts";
import type { PdfDocument, StructElement } from "../file/pdf-document.ts";

/** Box of an element on its page: left, top, right, bottom [pt]. */
export type Box = readonly [number, number, number, number];

/** The structure tree while it grows: elements by what layout called them, in the order they first appear. */
export type Structure = {
  /** The element that content with this tag belongs in, made with all it hangs from when first asked for. */
  readonly elementOf: (tag: Exclude<Tag, { kind: "artifact" }>, box: Box) => { element: StructElement; type: string };
  readonly end: () => void;
};

/** Starts a tree in a document. */
export function structure(doc: PdfDocument): Structure {
  const root = doc.struct("Document");
  doc.addStructure(root);
  const made = new Map<string, { element: StructElement; type: string }>();
  /** By table and row: the first column still without a cell. */
  const tables = new Map<string, Map<number, number>>();

  /** Of the heading last made. */
  let level = 0;

  const make = (id: string, type: string, parent: StructElement, options: object = {}) => {
    const before = made.get(id);
    if (before) return before;
    const element = doc.struct(type, options);
    parent.add(element);
    const entry = { element, type };
    made.set(id, entry);
    return entry;
  };

  /** A caption inside a Figure would lie outside its box, and screen readers stop at the Figure's alternative text. */
  const groupOf = (id: string | undefined) => (id === undefined ? root : make(id, "Div", root).element);

  const rowsOf = (table: string) => {
    const rows = tables.get(table) ?? new Map<number, number>();
    tables.set(table, rows);
    return rows;
  };
  /** Columns that hold nothing have their cells all the same: a table's rows are of one length. */
  const fillRow = (table: string, row: number, end: number) => {
    const parent = made.get(`${table}/${row}`)!.element;
    for (let column = rowsOf(table).get(row) ?? 0; column < end; column++)
      make(`${table}/${row}/${column}`, "TD", parent);
  };

  const elementOf: Structure["elementOf"] = (tag, box) => {
    switch (tag.kind) {
      case "heading": {
        const before = made.get(tag.id);
        if (before) return before;
        // A template may leave the title out: no level is skipped on the way down.
        level = Math.min(tag.level, level + 1);
        return make(tag.id, `H${level}`, root);
      }
      case "paragraph":
        return make(tag.id, "P", groupOf(tag.group));
      case "figure":
        return make(tag.id, "Figure", groupOf(tag.group), { alt: tag.alt, bbox: box });
      case "caption":
        // A group's figures come before its caption, so whatever is not there yet is a table.
        return make(tag.id, "Caption", make(tag.of, "Table", root).element);
      case "list-item": {
        const list = make(tag.list, "L", root).element;
        const item = make(tag.id, "LI", list).element;
        return tag.part === "label" ? make(`${tag.id}/label`, "Lbl", item) : make(`${tag.id}/body`, "LBody", item);
      }
      case "cell": {
        const table = make(tag.table, "Table", root).element;
        const row = make(`${tag.table}/${tag.row}`, "TR", table).element;
        const span = tag.span ?? 1;
        fillRow(tag.table, tag.row, tag.column);
        rowsOf(tag.table).set(tag.row, Math.max(rowsOf(tag.table).get(tag.row) ?? 0, tag.column + span));
        const scope = tag.header === "row" ? "Row" : "Column";
        const cell = make(`${tag.table}/${tag.row}/${tag.column}`, tag.header ? "TH" : "TD", row);
        const attributes = { ...(tag.header ? { Scope: scope } : {}), ...(span > 1 ? { ColSpan: span } : {}) };
        if (Object.keys(attributes).length > 0) cell.element.dictionary.data.A = { O: "Table", ...attributes };
        if (tag.says === undefined) return cell;
        return make(`${tag.table}/${tag.row}/${tag.column}/says`, "Span", cell.element, { actual: ` ${tag.says}` });
      }
    }
  };

  return {
    elementOf,
    end: () => {
      for (const [table, rows] of tables) {
        const columns = Math.max(...rows.values());
        for (const row of rows.keys()) fillRow(table, row, columns);
      }
      root.end();
    },
  };
}
