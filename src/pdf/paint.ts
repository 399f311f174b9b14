import { createHash } from "node:crypto";
import type { Page, Placed } from "../layout/page.ts";
import { type Attachment, attach } from "./attach.ts";
import type { Fonts } from "./fonts.ts";
import { issuedAt, type Meta } from "./meta.ts";
import { isPrinters, openPicture } from "./open-picture.ts";
import { outlineOf, writeOutline } from "./outline.ts";
import { outputIntent } from "./output-intent.ts";
import { pack } from "./pack.ts";
import { boxOf, paintItem } from "./paint-item.ts";
import { collected, openDocument, type PdfDocument } from "./pdf-document.ts";
import { type Structure, structure } from "./structure.ts";

/** What paint needs beside pages. Pictures are JPEG or PNG bytes by the names layout used. */
export type PaintEnv = {
  readonly fonts: Fonts;
  readonly images: ReadonlyMap<string, Uint8Array>;
  readonly meta: Meta;
  readonly attachments?: readonly Attachment[];
};

/** Pages as the bytes of a tagged PDF. Nothing is decided here: every place, size and colour is the page's own. */
export async function paint(pages: readonly Page[], env: PaintEnv): Promise<Buffer> {
  const doc = openDocument(env.meta, env.fonts);
  const tree = structure(doc);
  const images = new Map<string, unknown>();
  const open = openImages(doc, env);
  for (const page of pages) {
    doc.addPage({ size: [page.width, page.height], margin: 0 });
    for (const item of page.items)
      if (item.kind === "image" && !images.has(item.image)) images.set(item.image, open(item.image));
    const all = groups(page.items);
    all.forEach((group, i) => {
      // Decoration may part the lines of an element; they are one text all the same.
      const next = all.slice(i + 1).find((other) => other[0]!.tag.kind !== "artifact");
      paintGroup(doc, tree, group, next !== undefined && same(group[0]!, next[0]!), images);
    });
  }
  writeOutline(doc, outlineOf(pages));
  tree.end();
  attach(doc, env.attachments ?? [], issuedAt(env.meta));
  outputIntent(doc);
  const archival = ![...images.values()].some(isPrinters);
  return pack(await collected(doc, env.meta, { accessible: true, archival }));
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

const same = (a: Placed, b: Placed) => JSON.stringify(a.tag) === JSON.stringify(b.tag) && linkOf(a) === linkOf(b);
const linkOf = (item: Placed) => (item.kind === "text" ? item.link : undefined);

function paintGroup(
  doc: PdfDocument,
  tree: Structure,
  items: readonly Placed[],
  goesOn: boolean,
  images: ReadonlyMap<string, unknown>,
): void {
  const first = items[0]!;
  const ink = () => {
    items.forEach((item, i) => {
      // Lines of one element are words of one text to a reader: a space stands between them.
      paintItem(doc, item, images, goesOn || i < items.length - 1 ? " " : "");
    });
  };
  if (first.tag.kind === "artifact") {
    doc.markContent("Artifact", { type: first.block === "furniture" ? "Pagination" : "Layout" });
    ink();
    doc.endMarkedContent();
    return;
  }
  const { element, type } = tree.elementOf(first.tag, boxOf(first));
  const url = linkOf(first);
  if (url === undefined) {
    element.add(marked(doc, type, ink));
    return;
  }
  const link = doc.struct("Link");
  link.add(marked(doc, "Link", ink));
  for (const item of items) {
    const [left, top, right, bottom] = boxOf(item);
    const text = item.kind === "text" ? item.text : url;
    doc.link(left, top, right - left, bottom - top, url, { structParent: link, Contents: new String(text) });
  }
  element.add(link);
  // pdfkit takes the page of a link from where it is when the element ends.
  link.end();
}

function marked(doc: PdfDocument, type: string, ink: () => void) {
  const content = doc.markStructureContent(type);
  ink();
  doc.endMarkedContent();
  return content;
}
