import { createHash } from "node:crypto";
import type { Attachment } from "../embed/embedded-files.ts";
import type { Page, PlacedItem, Tag } from "../layout/page.ts";
import type { Weight } from "../text/measure.ts";
import { embedFiles } from "./file/attach.ts";
import { issueDate, type Meta } from "./file/metadata.ts";
import { finishDocument, openDocument, type PdfDocument } from "./file/pdf-document.ts";
import { addOutputIntent } from "./file/srgb-profile.ts";
import { createDocumentFont, type DocumentFont } from "./font/document-font.ts";
import type { Fonts } from "./font/fonts.ts";
import { boundingBox, type PaintContext, paintItem } from "./paint-item.ts";
import { isCmyk, openPicture } from "./pictures.ts";
import { collectOutline, writeOutline } from "./tags/outline.ts";
import { createStructureTree, type StructureTree } from "./tags/structure.ts";

/** Inputs of painting beside the pages. Pictures are JPEG or PNG bytes, by the names used in the layout. */
type PaintEnv = {
  readonly fonts: Fonts;
  readonly images: ReadonlyMap<string, Uint8Array>;
  readonly meta: Meta;
  readonly attachments?: readonly Attachment[];
};

/** A document with all pages painted, before fonts and cross-references are written. */
type PaintedDocument = {
  readonly doc: ReturnType<typeof openDocument>;
  readonly meta: Meta;
  readonly archival: boolean;
};

/** Paints pages as a tagged PDF. Every position, size and colour comes from the pages. */
export const paintPdf = async (pages: readonly Page[], env: PaintEnv): Promise<Buffer> =>
  finishPdf(paintPages(pages, env));

/** Ends a painted document and returns its bytes. */
export const finishPdf = ({ doc, meta, archival }: PaintedDocument): Promise<Buffer> =>
  finishDocument(doc, meta, { accessible: true, archival });

/** Paints all pages, then adds outline, attachments and output intent. */
export function paintPages(pages: readonly Page[], env: PaintEnv): PaintedDocument {
  const doc = openDocument(env.meta);
  const tree = createStructureTree(doc);
  const images = new Map<string, unknown>();
  const context: PaintContext = { doc, fontOf: createFontLookup(doc, env.fonts), images };
  const open = createImageLookup(doc, env);
  for (const page of pages) {
    doc.addPage({ size: [page.width, page.height], margin: 0 });
    for (const item of page.items)
      if (item.kind === "image" && !images.has(item.image)) images.set(item.image, open(item.image));
    const all = groupByElement(page.items);
    // Lines of one element form one text, even with artifacts between them.
    let next: PlacedItem | undefined;
    const continues = all.map(() => false);
    for (let i = all.length - 1; i >= 0; i--) {
      const first = all[i]![0]!;
      continues[i] = next !== undefined && isSameElement(first, next);
      // A shape's words within a cell begin with a space of their own; the cell's text goes on behind it.
      if (first.tag.kind !== "artifact" && !("says" in first.tag)) next = first;
    }
    all.forEach((group, i) => {
      paintGroup(context, tree, group, continues[i]!);
    });
  }
  writeOutline(doc, collectOutline(pages));
  tree.end();
  embedFiles(doc, env.attachments ?? [], issueDate(env.meta));
  addOutputIntent(doc);
  return { doc, meta: env.meta, archival: ![...images.values()].some(isCmyk) };
}

/** Creates each weight's font at its first use; the document finalises it at its end. */
function createFontLookup(doc: PdfDocument, fonts: Fonts): (weight: Weight) => DocumentFont {
  const opened = new Map<Weight, DocumentFont>();
  return (weight) => {
    const known = opened.get(weight);
    if (known) return known;
    const font = createDocumentFont(doc, fonts.faces[weight], `F${opened.size + 1}`);
    opened.set(weight, font);
    doc._fontFamilies[weight] = font;
    return font;
  };
}

/** Opens each picture once, also when two names refer to equal bytes. */
function createImageLookup(doc: PdfDocument, env: PaintEnv): (name: string) => unknown {
  const opened = new Map<string, unknown>();
  return (name) => {
    const bytes = env.images.get(name);
    if (bytes === undefined) throw new Error(`no picture named ${name} was given to paint`);
    const key = createHash("sha256").update(bytes).digest("hex");
    const image = opened.get(key) ?? openPicture(doc, bytes);
    opened.set(key, image);
    return image;
  };
}

/** Groups consecutive items of the same element, which share one marked-content sequence. */
function groupByElement(items: readonly PlacedItem[]): readonly (readonly PlacedItem[])[] {
  const all: PlacedItem[][] = [];
  for (const item of items) {
    const last = all.at(-1);
    if (last !== undefined && isSameElement(last[0]!, item)) last.push(item);
    else all.push([item]);
  }
  return all;
}

const isSameElement = (a: PlacedItem, b: PlacedItem) => isSameTag(a.tag, b.tag) && linkOf(a) === linkOf(b);
/** Compares tags key by key: they are flat. */
function isSameTag(a: Tag, b: Tag): boolean {
  if (a === b) return true;
  if (a.kind !== b.kind) return false;
  const [left, right] = [a, b] as Record<string, unknown>[];
  const keys = Object.keys(left!);
  return keys.length === Object.keys(right!).length && keys.every((key) => left![key] === right![key]);
}
const linkOf = (item: PlacedItem) => (item.kind === "text" ? item.link : undefined);

function paintGroup(
  context: PaintContext,
  tree: StructureTree,
  items: readonly PlacedItem[],
  continues: boolean,
): void {
  const { doc } = context;
  const first = items[0]!;
  const draw = () => {
    items.forEach((item, i) => {
      // A space separates the lines of one element when their text is extracted.
      paintItem(context, item, continues || i < items.length - 1 ? " " : "");
    });
  };
  if (first.tag.kind === "artifact") {
    doc.markContent("Artifact", { type: first.block === "furniture" ? "Pagination" : "Layout" });
    draw();
    doc.endMarkedContent();
    return;
  }
  const { element, type } = tree.elementOf(first.tag, boundingBox(first));
  const url = linkOf(first);
  if (url === undefined) {
    element.add(markContent(doc, type, draw));
    return;
  }
  const link = doc.struct("Link");
  link.add(markContent(doc, "Link", draw));
  for (const item of items) {
    const [left, top, right, bottom] = boundingBox(item);
    const text = item.kind === "text" ? item.text : url;
    doc.link(left, top, right - left, bottom - top, url, { structParent: link, Contents: new String(text) });
  }
  element.add(link);
  // pdfkit assigns a link to the page that is current when the element ends.
  link.end();
}

function markContent(doc: PdfDocument, type: string, draw: () => void) {
  const content = doc.markStructureContent(type);
  draw();
  doc.endMarkedContent();
  return content;
}
