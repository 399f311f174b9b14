import type { Drawing, PathCommand } from "../charts/drawing.ts";
import type { VectorPicture } from "../images/svg/parse-svg.ts";
import type { PlacedImage, PlacedItem, PlacedText } from "../layout/page.ts";
import type { Weight } from "../text/measure.ts";
import type { PdfDocument } from "./file/pdf-document.ts";
import type { DocumentFont } from "./font/document-font.ts";
import { fillOperator, formatNumber, pathOperators, roundNumber, strokeOperators } from "./operators.ts";
import { isVector } from "./pictures.ts";
import type { Box } from "./tags/structure.ts";

/** Fonts and pictures of the document being painted. */
export type PaintContext = {
  readonly doc: PdfDocument;
  readonly fontOf: (weight: Weight) => DocumentFont;
  /** Pictures opened for the document, by name. */
  readonly images: ReadonlyMap<string, unknown>;
};

/** Paints one item. `after` is appended to a text, such as the space between two lines. */
export function paintItem(context: PaintContext, item: PlacedItem, after: string): void {
  const { doc } = context;
  switch (item.kind) {
    case "text":
      paintText(context, item, item.text + after, item.x, item.y);
      return;
    case "rule":
      doc.addContent(
        `${strokeOperators({ color: item.color, width: item.width, ...(item.dash ? { dash: item.dash } : {}) })} ${formatNumber(item.x1)} ${formatNumber(item.y1)} m ${formatNumber(item.x2)} ${formatNumber(item.y2)} l S`,
      );
      return;
    case "box":
      doc.addContent(
        `${fillOperator(item.fill)} ${formatNumber(item.x)} ${formatNumber(item.y)} ${formatNumber(item.width)} ${formatNumber(item.height)} re f`,
      );
      return;
    case "drawing":
      paintDrawing(context, item.drawing, item.x, item.y);
      return;
    case "image":
      paintImage(context, item);
  }
}

/** A picture, clipped where only part of it is seen. */
function paintImage({ doc, images }: PaintContext, item: PlacedImage): void {
  const { x, y, width, height, image, whole } = item;
  const opened = images.get(image);
  if (isVector(opened)) {
    paintShapes(doc, opened, item);
    return;
  }
  if (!whole) {
    doc.image(images.get(image), x, y, { width, height });
    return;
  }
  doc.save();
  doc.addContent(`${[x, y, width, height].map(formatNumber).join(" ")} re W n`);
  doc.image(images.get(image), x + whole.x, y + whole.y, { width: whole.width, height: whole.height });
  doc.restore();
}

/** Filled shapes, scaled into the item's box. */
function paintShapes(doc: PdfDocument, picture: VectorPicture, { x, y, width, height }: PlacedImage): void {
  const [sx, sy] = [width / picture.width, height / picture.height];
  for (const { steps, fill, evenOdd } of picture.shapes) {
    const d = steps.map(([name, ...places]) => [
      name,
      ...places.map((place, i) => (i % 2 === 0 ? place * sx : place * sy)),
    ]) as unknown as readonly PathCommand[];
    const operators = pathOperators({ d, fill }, x, y);
    if (operators !== "") doc.addContent(evenOdd ? `${operators}*` : operators);
  }
}

function paintDrawing(context: PaintContext, drawing: Drawing, dx: number, dy: number): void {
  const { doc } = context;
  for (const item of drawing.items) {
    if (item.kind === "path") {
      const operators = pathOperators(item, dx, dy);
      if (operators !== "") doc.addContent(operators);
      continue;
    }
    const [x, y] = [dx + item.x, dy + item.y];
    // A space separates it from the next label when the text is extracted.
    const text = `${item.text} `;
    if (!item.angle) paintText(context, item, text, x, y);
    else {
      doc.save();
      doc.rotate(item.angle, { origin: [x, y] });
      paintText(context, item, text, x, y);
      doc.restore();
    }
  }
}

/** Shows a text at (x, y) of the page. The y axis points down, so it is flipped back, or letters would be upside down. */
function paintText(
  { doc, fontOf }: PaintContext,
  { size, weight, color }: Pick<PlacedText, "size" | "weight" | "color">,
  text: string,
  x: number,
  y: number,
): void {
  if (text === "") return;
  const { height, fonts } = doc.page;
  const font = fontOf(weight);
  fonts[font.id] ??= font.reference;
  const up = height - y;
  doc.addContent(
    `${fillOperator(color)}\nq\n1 0 0 -1 0 ${roundNumber(height)} cm\nBT\n1 0 0 1 ${roundNumber(x)} ${roundNumber(up)} Tm\n/${font.id} ${roundNumber(size)} Tf\n${font.show(text, x, up, size)}\nET\nQ`,
  );
}

/** How far a mark at the edge of a plot may reach beyond its drawing, a ring around it included [pt]. */
const OVERHANG = 5;

/** The bounding box of an item on its page. */
export function boundingBox(item: PlacedItem): Box {
  switch (item.kind) {
    case "rule":
      return [
        Math.min(item.x1, item.x2),
        Math.min(item.y1, item.y2),
        Math.max(item.x1, item.x2),
        Math.max(item.y1, item.y2),
      ];
    case "text":
      return [item.x, item.y - item.size, item.x + item.width, item.y + item.size * 0.25];
    case "drawing": {
      const { width, height } = item.drawing;
      return [item.x - OVERHANG, item.y - OVERHANG, item.x + width + OVERHANG, item.y + height + OVERHANG];
    }
    default:
      return [item.x, item.y, item.x + item.width, item.y + item.height];
  }
}
