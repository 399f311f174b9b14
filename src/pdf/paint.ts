import { createHash } from "node:crypto";
import type { Attachment } from "../embed/embedded-files.ts";
import type { Page, Placed, Tag } from "../layout/page.ts";
import type { Weight } from "../text/measure.ts";
import { attach } from "./file/attach.ts";
import { issuedAt, type Meta } from "./file/meta.ts";
import { outputIntent } from "./file/output-intent.ts";
import { collected, openDocument, type PdfDocument } from "./file/pdf-document.ts";
import { type DocumentFont, documentFont } from "./font/document-font.ts";
import type { Fonts } from "./font/fonts.ts";
import { boxOf, type Ink, paintItem } from "./paint-item.ts";
import { isPrinters, openPicture } from "./pictures.ts";
import { outlineOf, writeOutline } from "./tags/outline.ts";
import { type Structure, structure } from "./tags/structure.ts";

/** What paint needs beside pages. Pictures are JPEG or PNG bytes by the names layout used. */
export type PaintEnv = {
  readonly fonts: Fonts;
  readonly images: ReadonlyMap<string, Uint8Array>;
  readonly meta: Meta;
  readonly attachments?: readonly Attachment[];
};

/** A document with all its pages painted, still without its fonts, its index and its end. */
export type Painted = {
  readonly doc: ReturnType<typeof openDocument>;
  readonly meta: Meta;
  readonly archival: boolean;
};

/** Pages as the bytes of a tagged PDF. Nothing is decided here: every place, size and colour is the page's own. */
export const paint = async (pages: readonly Page[], env: PaintEnv): Promise<Buffer> => close(paintPages(pages, env));

/** The bytes of a painted document. */
export const close = ({ doc, meta, archival }: Painted): Promise<Buffer> =>
  collected(doc, meta, { accessible: true, archival });

/** All that stands on the pages, and what goes with them. */
export function paintPages(pages: readonly Page[], env: PaintEnv): Painted {
  const doc = openDocument(env.meta);
  const tree = structure(doc);
  const images = new Map<string, unknown>();
  const ink: Ink = { doc, fontOf: openFontsOf(doc, env.fonts), images };
  const open = openImages(doc, env);
  for (const page of pages) {
    doc.addPage({ size: [page.width, page.height], margin: 0 });
    for (const item of page.items)
      if (item.kind === "image" && !images.has(item.image)) images.set(item.image, open(item.image));
    const all = groups(page.items);
    // Decoration may part the lines of an element; they are one text all the same.
    let next: Placed | undefined;
    const goesOn = all.map(() => false);
    for (let i = all.length - 1; i >= 0; i--) {
      const first = all[i]![0]!;
      goesOn[i] = next !== undefined && same(first, next);
      if (first.tag.kind !== "artifact") next = first;
    }
    all.forEach((group, i) => {
      paintGroup(ink, tree, group, goesOn[i]!);
    });
  }
  writeOutline(doc, outlineOf(pages));
  tree.end();
  attach(doc, env.attachments ?? [], issuedAt(env.meta));
  outputIntent(doc);
  return { doc, meta: env.meta, archival: ![...images.values()].some(isPrinters) };
}

/** Each weight's font, when it is first set; the document writes it when it ends. */
function openFontsOf(doc: PdfDocument, fonts: Fonts): (weight: Weight) => DocumentFont {
  const opened = new Map<Weight, DocumentFont>();
  return (weight) => {
    const known = opened.get(weight);
    if (known) return known;
    const font = documentFont(doc, fonts.faces[weight], `F${opened.size + 1}`);
    opened.set(weight, font);
    doc._fontFamilies[weight] = font;
    return font;
  };
}

/** Each picture once, also where two names stand for the same bytes. */
function openImages(doc: PdfDocument, env: PaintEnv): (name: string) => unknown {
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

/** Neighbours of one element, which are marked as one. */
function groups(items: readonly Placed[]): readonly (readonly Placed[])[] {
  const all: Placed[][] = [];
  for (const item of items) {
    const last = all.at(-1);
    if (last !== undefined && same(last[0]!, item)) last.push(item);
    else all.push([item]);
  }
  return all;
}

const same = (a: Placed, b: Placed) => sameTag(a.tag, b.tag) && linkOf(a) === linkOf(b);
/** Tags are flat: they are equal when each of their words is. */
function sameTag(a: Tag, b: Tag): boolean {
  if (a === b) return true;
  if (a.kind !== b.kind) return false;
  const [left, right] = [a, b] as Record<string, unknown>[];
  const keys = Object.keys(left!);
  return keys.length === Object.keys(right!).length && keys.every((key) => left![key] === right![key]);
}
const linkOf = (item: Placed) => (item.kind === "text" ? item.link : undefined);

function paintGroup(ink: Ink, tree: Structure, items: readonly Placed[], goesOn: boolean): void {
  const { doc } = ink;
  const first = items[0]!;
  const draw = () => {
    items.forEach((item, i) => {
      // Lines of one element are words of one text to a reader: a space stands between them.
      paintItem(ink, item, goesOn || i < items.length - 1 ? " " : "");
    });
  };
  if (first.tag.kind === "artifact") {
    doc.markContent("Artifact", { type: first.block === "furniture" ? "Pagination" : "Layout" });
    draw();
    doc.endMarkedContent();
    return;
  }
  const { element, type } = tree.elementOf(first.tag, boxOf(first));
  const url = linkOf(first);
  if (url === undefined) {
    element.add(marked(doc, type, draw));
    return;
  }
  const link = doc.struct("Link");
  link.add(marked(doc, "Link", draw));
  for (const item of items) {
    const [left, top, right, bottom] = boxOf(item);
    const text = item.kind === "text" ? item.text : url;
    doc.link(left, top, right - left, bottom - top, url, { structParent: link, Contents: new String(text) });
  }
  element.add(link);
  // pdfkit takes the page of a link from where it is when the element ends.
  link.end();
}

function marked(doc: PdfDocument, type: string, draw: () => void) {
  const content = doc.markStructureContent(type);
  draw();
  doc.endMarkedContent();
  return content;
}
