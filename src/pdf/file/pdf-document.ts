import { deflateSync } from "node:zlib";
import PDFDocument from "pdfkit";
import { buildXmp, type Claims, issueDate, type Meta } from "./metadata.ts";
import { createObjectStreamWriter, type ObjectStreamWriter } from "./object-stream-writer.ts";
import { serializeObject } from "./serialize-object.ts";

/** An element of the structure tree. `dictionary.data` takes attributes for which pdfkit has no option. */
export type StructElement = {
  add(child: StructElement | StructContent): StructElement;
  end(): void;
  readonly dictionary: PdfReference;
};
/** Marked content on a page, to be added to an element. */
type StructContent = { readonly refs: readonly unknown[] };
export type OutlineItem = {
  addItem(title: string, options: object): OutlineItem;
  readonly children: readonly OutlineItem[];
};

/** An indirect object of the file. */
export type PdfReference = {
  readonly id: number;
  readonly data: Record<string, unknown>;
  end(bytes?: Uint8Array): void;
};
type PdfPage = {
  readonly height: number;
  /** Fonts used on the page, by resource name. */
  readonly fonts: Record<string, PdfReference>;
  readonly content: { write(bytes: Uint8Array): void };
};

/** The part of pdfkit in use; its published types lack much of it. */
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
  readonly page: PdfPage;
  /** Fonts to finalise when the document ends, under any key. */
  readonly _fontFamilies: Record<string, { finalize(): void }>;
  addNamedEmbeddedFile(name: string, spec: object): void;
  struct(type: string, options?: object): StructElement;
  addStructure(element: StructElement): void;
  getStructTreeRoot(): PdfReference;
  markStructureContent(tag: string): StructContent;
  markContent(tag: string, options?: object): void;
  endMarkedContent(): void;
  end(): void;
  info: Record<string, unknown>;
  appendXML(xml: string): void;
  _addInfo: () => void;
  readonly _root: { readonly data: Record<string, unknown> };
};

/** An indirect object that pdfkit has not finalised yet. */
type OpenReference = PdfReference & {
  buffer: readonly Uint8Array[];
  readonly compress: boolean;
  finalize: () => void;
};
/** Members of pdfkit's document that PackedDocument overrides or calls. */
type PdfkitDocument = Omit<PdfDocument, "ref" | "addContent"> & {
  ref(data?: object): OpenReference;
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
 * pdfkit document that writes object streams. pdfkit converts each operator and each line of an object to bytes separately;
 * here a page stays text until it is complete, and objects go straight into the object stream writer.
 */
class PackedDocument extends Pdfkit {
  private readonly lines: string[] = [];
  private readonly file: ObjectStreamWriter = createObjectStreamWriter("1.7");
  /** Called with the bytes of the file. */
  onEnd: (bytes: Buffer) => void = () => {};

  override addContent(operators: string): this {
    this.lines.push(operators);
    return this;
  }
  override flushPages(): void {
    if (this.lines.length > 0) this.page.content.write(Buffer.from(`${this.lines.join("\n")}\n`, "latin1"));
    this.lines.length = 0;
    super.flushPages();
  }
  override ref(data?: object): OpenReference {
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
    this.onEnd(this.file.end(serializeObject(entries).slice(3, -3)));
  }
}

/** Opens a tagged document with metadata; nothing in it depends on the current time. */
export function openDocument(meta: Meta): PackedDocument {
  const date = issueDate(meta);
  const doc = new PackedDocument({
    pdfVersion: "1.7",
    autoFirstPage: false,
    tagged: true,
    displayTitle: true,
    lang: meta.language,
    // No default font: pdfkit's cannot be embedded.
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
  // With an outline, pdfkit makes viewers open the side bar, too much for a one-page sheet.
  doc._root.data.PageMode = "UseNone";
  return doc;
}

/** Ends the document and returns its bytes. */
export function finishDocument(doc: PackedDocument, meta: Meta, claims: Claims): Promise<Buffer> {
  // pdfkit does not escape its XMP: an ampersand in a title would break it.
  doc._addInfo = () => doc.appendXML(buildXmp(meta, claims));
  return new Promise((resolve) => {
    doc.onEnd = resolve;
    doc.end();
  });
}
