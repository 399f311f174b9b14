import PDFDocument from "pdfkit";
import type { Fonts } from "./fonts.ts";
import { issuedAt, type Meta } from "./meta.ts";
import { type Claims, xmp } from "./xmp.ts";

/** An element of the structure tree. `dictionary.data` takes attributes that pdfkit has no option for. */
export type StructElement = {
  add(child: StructElement | StructContent): StructElement;
  end(): void;
  readonly dictionary: { readonly data: Record<string, unknown> };
};
/** Marked content on a page, to hang into an element. */
export type StructContent = { readonly refs: readonly unknown[] };
export type OutlineItem = {
  addItem(title: string, options: object): OutlineItem;
  readonly children: readonly OutlineItem[];
};

/** The part of pdfkit that we use, its own types lacking much of it. */
export type PdfDocument = {
  readonly outline: OutlineItem & { readonly outlineData: Record<string, unknown> };
  addPage(options: { size: readonly [number, number]; margin: number }): void;
  addContent(operators: string): void;
  save(): void;
  restore(): void;
  rotate(angle: number, options: { origin: readonly [number, number] }): void;
  registerFont(name: string, src: unknown): void;
  font(name: string): void;
  fontSize(size: number): void;
  text(text: string, x: number, y: number, options: object): void;
  openImage(bytes: Uint8Array): unknown;
  image(image: unknown, x: number, y: number, options: { width: number; height: number }): void;
  link(x: number, y: number, width: number, height: number, url: string, options: object): void;
  ref(data: object): { end(bytes?: Uint8Array): void };
  addNamedEmbeddedFile(name: string, spec: object): void;
  struct(type: string, options?: object): StructElement;
  addStructure(element: StructElement): void;
  markStructureContent(tag: string): StructContent;
  markContent(tag: string, options?: object): void;
  endMarkedContent(): void;
  on(event: "data", listener: (chunk: Uint8Array) => void): void;
  on(event: "end", listener: () => void): void;
  on(event: "error", listener: (error: Error) => void): void;
  end(): void;
  info: Record<string, unknown>;
  appendXML(xml: string): void;
  _addInfo: () => void;
  readonly _root: { readonly data: Record<string, unknown> };
};

/** A new document, tagged, with its fonts and metadata; nothing in it knows the time. */
export function openDocument(meta: Meta, fonts: Fonts): PdfDocument {
  const date = issuedAt(meta);
  const doc = new PDFDocument({
    pdfVersion: "1.7",
    autoFirstPage: false,
    tagged: true,
    displayTitle: true,
    lang: meta.language,
    // No font of its own: pdfkit would take one that cannot be embedded.
    font: null as unknown as string,
    info: {
      Title: meta.title,
      Subject: meta.subject,
      ...(meta.author === undefined ? {} : { Author: meta.author }),
      ...(meta.keywords === undefined ? {} : { Keywords: meta.keywords }),
      Creator: meta.producer,
      Producer: meta.producer,
      CreationDate: date,
      ModDate: date,
    },
  }) as unknown as PdfDocument;
  // With an outline, pdfkit would have every reader open a side bar over a one-page sheet.
  doc._root.data.PageMode = "UseNone";
  for (const [weight, face] of Object.entries(fonts.faces)) doc.registerFont(weight, face);
  return doc;
}

/** Ends the document and collects what it wrote. */
export function collected(doc: PdfDocument, meta: Meta, claims: Claims): Promise<Buffer> {
  // pdfkit writes its metadata unescaped: a title with an ampersand would break it.
  doc._addInfo = () => doc.appendXML(xmp(meta, claims));
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    doc.on("data", (chunk) => chunks.push(chunk));
    doc.on("error", reject);
    doc.on("end", () => resolve(Buffer.concat(chunks)));
    doc.end();
  });
}
