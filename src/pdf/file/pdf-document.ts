import { deflateSync } from "node:zlib";
import PDFDocument from "pdfkit";
import { issuedAt, type Meta } from "./meta.ts";
import { objectStreamWriter, type PackedFile } from "./object-stream-writer.ts";
import { serializeObject } from "./serialize-object.ts";
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

/** An object of the file. */
export type PdfReference = {
  readonly id: number;
  readonly data: Record<string, unknown>;
  end(bytes?: Uint8Array): void;
};
type Page = {
  readonly height: number;
  /** Fonts that it sets, by their names. */
  readonly fonts: Record<string, PdfReference>;
  readonly content: { write(bytes: Uint8Array): void };
};

/** The part of pdfkit that we use, its own types lacking much of it. */
export type PdfDocument = {
  readonly outline: OutlineItem & { readonly outlineData: Record<string, unknown> };
  addPage(options: { size: readonly [number, number]; margin: number }): void;
  addContent(operators: string): void;
  save(): void;
  restore(): void;
  rotate(angle: number, options: { origin: readonly [number, number] }): void;
  openImage(bytes: Uint8Array): unknown;
  image(image: unknown, x: number, y: number, options: { width: number; height: number }): void;
  link(x: number, y: number, width: number, height: number, url: string, options: object): void;
  ref(data?: object): PdfReference;
  readonly page: Page;
  /** What is finalized when the document ends, by any name. */
  readonly _fontFamilies: Record<string, { finalize(): void }>;
  addNamedEmbeddedFile(name: string, spec: object): void;
  struct(type: string, options?: object): StructElement;
  addStructure(element: StructElement): void;
  markStructureContent(tag: string): StructContent;
  markContent(tag: string, options?: object): void;
  endMarkedContent(): void;
  end(): void;
  info: Record<string, unknown>;
  appendXML(xml: string): void;
  _addInfo: () => void;
  readonly _root: { readonly data: Record<string, unknown> };
};

/** An object as pdfkit holds it until it is written. */
type Unwritten = PdfReference & {
  buffer: readonly Uint8Array[];
  readonly compress: boolean;
  finalize: () => void;
};
/** pdfkit's own document, as far as we do otherwise. */
type PdfkitDocument = Omit<PdfDocument, "ref" | "addContent"> & {
  ref(data?: object): Unwritten;
  addContent(operators: string): unknown;
  flushPages(): void;
  _write(data: unknown): void;
  _refEnd(reference: PdfReference): void;
  _finalize(): void;
  readonly _info: PdfReference;
  readonly _id: Uint8Array;
  readonly version: number;
};
const Pdfkit = PDFDocument as unknown as new (options: object) => PdfkitDocument;

/**
 * pdfkit's document, written by our own hand. pdfkit turns each operator and each line of an object into bytes by itself; here
 * a page is text until it is whole, and objects go straight to where they are packed.
 */
class PackedDocument extends Pdfkit {
  private readonly lines: string[] = [];
  private readonly file: PackedFile = objectStreamWriter("1.7");
  /** Called with the bytes, once everything was written. */
  whenWritten: (bytes: Buffer) => void = () => {};

  override addContent(operators: string): this {
    this.lines.push(operators);
    return this;
  }
  override flushPages(): void {
    if (this.lines.length > 0) this.page.content.write(Buffer.from(`${this.lines.join("\n")}\n`, "latin1"));
    this.lines.length = 0;
    super.flushPages();
  }
  override ref(data?: object): Unwritten {
    const reference = super.ref(data);
    reference.finalize = () => {
      const { data, buffer, compress, id } = reference;
      if (buffer.length === 0) this.file.add(id, serializeObject(data));
      else {
        const whole = buffer.length === 1 ? buffer[0]! : Buffer.concat(buffer);
        const stream = compress ? deflateSync(whole) : whole;
        data.Length = stream.length;
        this.file.add(id, serializeObject(data), stream);
        reference.buffer = [];
      }
      this._refEnd(reference);
    };
    return reference;
  }
  override _write(): void {}
  override _finalize(): void {
    const entries = { Root: this._root, Info: this._info, ID: [this._id, this._id] };
    this.whenWritten(this.file.end(serializeObject(entries).slice(3, -3)));
  }
}

/** A new document, tagged, with its fonts and metadata; nothing in it knows the time. */
export function openDocument(meta: Meta): PackedDocument {
  const date = issuedAt(meta);
  const doc = new PackedDocument({
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
      Creator: meta.producer,
      Producer: meta.producer,
      CreationDate: date,
      ModDate: date,
    },
  });
  // With an outline, pdfkit would have every reader open a side bar over a one-page sheet.
  doc._root.data.PageMode = "UseNone";
  return doc;
}

/** Ends the document: its bytes. */
export function collected(doc: PackedDocument, meta: Meta, claims: Claims): Promise<Buffer> {
  // pdfkit writes its metadata unescaped: a title with an ampersand would break it.
  doc._addInfo = () => doc.appendXML(xmp(meta, claims));
  return new Promise((resolve) => {
    doc.whenWritten = resolve;
    doc.end();
  });
}
