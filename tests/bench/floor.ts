import { type Face, openSync } from "fontkit";
import PDFDocument from "pdfkit";
import type { PathItem } from "../../src/charts/drawing.ts";
import type { PlacedText } from "../../src/layout/page.ts";
import type { Content } from "./stages.ts";

const FAMILY = "node_modules/@expo-google-fonts/ibm-plex-sans";
/** The three weights that a page sets, opened once. */
export const openFaces = (root: string): Readonly<Record<string, Face>> => ({
  regular: openSync(`${root}/${FAMILY}/400Regular/IBMPlexSans_400Regular.ttf`),
  semibold: openSync(`${root}/${FAMILY}/600SemiBold/IBMPlexSans_600SemiBold.ttf`),
  medium: openSync(`${root}/${FAMILY}/500Medium/IBMPlexSans_500Medium.ttf`),
});

// The package's own types lack tagging and embedded files with a relationship.
type Doc = InstanceType<typeof PDFDocument> & {
  struct(type: string, options?: object | unknown): { add(child: unknown): void; end(): void };
  addStructure(element: unknown): void;
  markStructureContent(type: string): unknown;
  markContent(type: string): void;
  endMarkedContent(): void;
};

/**
 * The least that a page of this content costs with PDFKit: every text, line and chart is drawn by hand where it belongs, with
 * PDFKit's own calls, tagged element by element, the same files inside. Nothing is read, worked out or laid out.
 */
export function floorPage(
  { pages, meta, attachments }: Content,
  faces: Readonly<Record<string, Face>>,
): Promise<Buffer> {
  const doc = new PDFDocument({
    autoFirstPage: false,
    tagged: true,
    pdfVersion: "1.7",
    lang: "en",
    displayTitle: true,
    font: null as unknown as string,
    info: { Title: meta.title, CreationDate: new Date(`${meta.issued}T12:00:00Z`) },
  }) as Doc;
  for (const [name, face] of Object.entries(faces)) doc.registerFont(name, face as unknown as string);
  const root = doc.struct("Document");
  doc.addStructure(root);
  const text = (item: Pick<PlacedText, "text" | "x" | "y" | "size" | "weight" | "color">) =>
    doc
      .font(item.weight)
      .fontSize(item.size)
      .fillColor(item.color)
      .text(item.text, item.x, item.y, { lineBreak: false, baseline: "alphabetic" });
  for (const page of pages) {
    doc.addPage({ size: [page.width, page.height], margin: 0 });
    for (const item of page.items) {
      if (item.tag.kind === "artifact") doc.markContent("Artifact");
      const type = item.tag.kind === "cell" ? "TD" : item.tag.kind === "figure" ? "Figure" : "P";
      const content = item.tag.kind === "artifact" ? undefined : doc.markStructureContent(type);
      if (item.kind === "text") text(item);
      else if (item.kind === "rule")
        doc.moveTo(item.x1, item.y1).lineTo(item.x2, item.y2).lineWidth(item.width).stroke(item.color);
      else if (item.kind === "box") doc.rect(item.x, item.y, item.width, item.height).fill(item.fill);
      else if (item.kind === "drawing")
        for (const part of item.drawing.items) {
          if (part.kind === "text") text({ ...part, x: part.x + item.x, y: part.y + item.y });
          else drawPath(doc, part, item.x, item.y);
        }
      doc.endMarkedContent();
      if (content) {
        const element = doc.struct(type, item.tag.kind === "figure" ? { alt: item.tag.alt } : {});
        element.add(content);
        root.add(element);
      }
    }
  }
  root.end();
  for (const { name, bytes, type } of attachments)
    doc.file(Buffer.from(bytes), { name, type, creationDate: new Date(0), modifiedDate: new Date(0) });
  return collected(doc);
}

function drawPath(doc: Doc, { d, fill, stroke }: PathItem, dx: number, dy: number): void {
  for (const command of d) {
    if (command[0] === "M") doc.moveTo(command[1] + dx, command[2] + dy);
    else if (command[0] === "L") doc.lineTo(command[1] + dx, command[2] + dy);
    else if (command[0] === "C") {
      const [, x1, y1, x2, y2, x, y] = command;
      doc.bezierCurveTo(x1 + dx, y1 + dy, x2 + dx, y2 + dy, x + dx, y + dy);
    } else doc.closePath();
  }
  if (stroke) doc.lineWidth(stroke.width);
  if (fill && stroke) doc.fillAndStroke(fill, stroke.color);
  else if (fill) doc.fill(fill);
  else if (stroke) doc.stroke(stroke.color);
}

/** A stream of PDF as bytes, once it has ended. */
export function collected(doc: NodeJS.EventEmitter & { end(): void }): Promise<Buffer> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    doc.on("data", (chunk: Uint8Array) => chunks.push(chunk));
    doc.on("error", reject);
    doc.on("end", () => resolve(Buffer.concat(chunks)));
    doc.end();
  });
}
