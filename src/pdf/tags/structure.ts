import type { Tag } from "../../layout/page.ts";
import type { PdfDocument, StructElement } from "../file/pdf-document.ts";
import { createTableElements } from "./table-elements.ts";

/** Box of an element on its page: left, top, right, bottom [pt]. */
export type Box = readonly [number, number, number, number];

/** The structure tree under construction: elements in order of first appearance. */
export type StructureTree = {
  /** The element for content with this tag, created with its ancestors at first use. */
  readonly elementOf: (tag: Exclude<Tag, { kind: "artifact" }>, box: Box) => { element: StructElement; type: string };
  readonly end: () => void;
};

type Entry = ReturnType<StructureTree["elementOf"]>;

/** Starts a tree in a document. */
export function createStructureTree(doc: PdfDocument): StructureTree {
  const root = doc.struct("Document");
  doc.addStructure(root);
  const entries = new Map<string, Entry>();
  /** The element of that id, created under `parent` at first use. */
  const ensure = (id: string, type: string, parent: StructElement, options: object = {}): Entry => {
    const known = entries.get(id);
    if (known) return known;
    const element = doc.struct(type, options);
    parent.add(element);
    const entry = { element, type };
    entries.set(id, entry);
    return entry;
  };
  const cells = createTableElements(doc);
  /** Level of the latest heading. */
  let level = 0;

  /** A caption inside a Figure would lie outside its box, and screen readers stop at the Figure's alternative text. */
  const homeOf = ({ group, captions }: { readonly group?: string; readonly captions?: string }): StructElement => {
    if (captions !== undefined) return captionOf(captions, `${captions}-caption`).element;
    return group === undefined ? root : ensure(group, "Div", root).element;
  };
  /** The caption opens its table; charts are tagged before theirs, so what it captions and does not exist yet is a table. */
  const captionOf = (of: string, id: string) => ensure(id, "Caption", ensure(of, "Table", root).element);

  const elementOf: StructureTree["elementOf"] = (tag, box) => {
    switch (tag.kind) {
      case "heading": {
        const known = entries.get(tag.id);
        if (known) return known;
        // Heading levels must not be skipped, even if a template omits the title.
        level = Math.min(tag.level, level + 1);
        return ensure(tag.id, `H${level}`, homeOf(tag));
      }
      case "paragraph":
        return ensure(tag.id, "P", homeOf(tag));
      case "figure":
        return ensure(tag.id, "Figure", homeOf(tag), { alt: tag.alt, bbox: box });
      case "caption":
        return captionOf(tag.of, tag.id);
      case "list-item": {
        const list = ensure(tag.list, "L", root).element;
        const item = ensure(tag.id, "LI", list).element;
        return tag.part === "label" ? ensure(`${tag.id}/label`, "Lbl", item) : ensure(`${tag.id}/body`, "LBody", item);
      }
      case "cell": {
        const cell = cells.cellOf(tag, ensure(tag.table, "Table", root).element);
        if (tag.says === undefined) return cell;
        return ensure(`${tag.table}/${tag.row}/${tag.column}/says`, "Span", cell.element, { actual: ` ${tag.says}` });
      }
    }
  };

  return {
    elementOf,
    end: () => {
      cells.complete();
      root.end();
    },
  };
}
