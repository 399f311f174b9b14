import type { Tag } from "../../layout/page.ts";
import type { PdfDocument, StructElement } from "../file/pdf-document.ts";

/** Box of an element on its page: left, top, right, bottom [pt]. */
export type Box = readonly [number, number, number, number];

/** The structure tree under construction: elements in order of first appearance. */
export type StructureTree = {
  /** The element for content with this tag, created with its ancestors at first use. */
  readonly elementOf: (tag: Exclude<Tag, { kind: "artifact" }>, box: Box) => { element: StructElement; type: string };
  readonly end: () => void;
};

type Entry = ReturnType<StructureTree["elementOf"]>;
/** Returns the element of that id, created under `parent` at first use. */
type EnsureElement = (id: string, type: string, parent: StructElement, options?: object) => Entry;

/** Starts a tree in a document. */
export function createStructureTree(doc: PdfDocument): StructureTree {
  const root = doc.struct("Document");
  doc.addStructure(root);
  const entries = new Map<string, Entry>();
  const ensure: EnsureElement = (id, type, parent, options = {}) => {
    const known = entries.get(id);
    if (known) return known;
    const element = doc.struct(type, options);
    parent.add(element);
    const entry = { element, type };
    entries.set(id, entry);
    return entry;
  };
  const cells = createCells(root, ensure);
  /** Level of the latest heading. */
  let level = 0;

  /** A caption inside a Figure would lie outside its box, and screen readers stop at the Figure's alternative text. */
  const groupOf = (id: string | undefined) => (id === undefined ? root : ensure(id, "Div", root).element);

  const elementOf: StructureTree["elementOf"] = (tag, box) => {
    switch (tag.kind) {
      case "heading": {
        const known = entries.get(tag.id);
        if (known) return known;
        // A template may omit the title: no level may be skipped on the way down.
        level = Math.min(tag.level, level + 1);
        return ensure(tag.id, `H${level}`, root);
      }
      case "paragraph":
        return ensure(tag.id, "P", groupOf(tag.group));
      case "figure":
        return ensure(tag.id, "Figure", groupOf(tag.group), { alt: tag.alt, bbox: box });
      case "caption":
        // Charts are tagged before their caption: a captioned element that does not exist yet must be a table.
        return ensure(tag.id, "Caption", ensure(tag.of, "Table", root).element);
      case "list-item": {
        const list = ensure(tag.list, "L", root).element;
        const item = ensure(tag.id, "LI", list).element;
        return tag.part === "label" ? ensure(`${tag.id}/label`, "Lbl", item) : ensure(`${tag.id}/body`, "LBody", item);
      }
      case "cell":
        return cells.elementOf(tag);
    }
  };

  return {
    elementOf,
    end: () => {
      cells.completeRows();
      root.end();
    },
  };
}

/** Cells of tables: a skipped column gets an empty cell, since all rows of a table must have the same length. */
function createCells(root: StructElement, ensure: EnsureElement) {
  /** By table and row: the row's element and its first column without a cell. */
  const tables = new Map<string, Map<number, { readonly row: StructElement; end: number }>>();
  const fill = (id: string, from: { row: StructElement; end: number }, end: number) => {
    for (; from.end < end; from.end++) ensure(`${id}/${from.end}`, "TD", from.row);
  };
  return {
    elementOf: (tag: Extract<Tag, { kind: "cell" }>): Entry => {
      const table = ensure(tag.table, "Table", root).element;
      const id = `${tag.table}/${tag.row}`;
      const rows = tables.get(tag.table) ?? new Map<number, { row: StructElement; end: number }>();
      tables.set(tag.table, rows);
      const own = rows.get(tag.row) ?? { row: ensure(id, "TR", table).element, end: 0 };
      rows.set(tag.row, own);
      const span = tag.span ?? 1;
      fill(id, own, tag.column);
      own.end = Math.max(own.end, tag.column + span);
      const scope = tag.header === "row" ? "Row" : "Column";
      const cell = ensure(`${id}/${tag.column}`, tag.header ? "TH" : "TD", own.row);
      const attributes = { ...(tag.header ? { Scope: scope } : {}), ...(span > 1 ? { ColSpan: span } : {}) };
      if (Object.keys(attributes).length > 0) cell.element.dictionary.data.A = { O: "Table", ...attributes };
      if (tag.says === undefined) return cell;
      return ensure(`${id}/${tag.column}/says`, "Span", cell.element, { actual: ` ${tag.says}` });
    },
    completeRows: () => {
      for (const [table, rows] of tables) {
        const columns = Math.max(...[...rows.values()].map(({ end }) => end));
        for (const [row, own] of rows) fill(`${table}/${row}`, own, columns);
      }
    },
  };
}
