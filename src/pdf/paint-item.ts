import type { Drawing } from "../charts/drawing.ts";
import type { Placed, PlacedText } from "../layout/page.ts";
import type { Weight } from "../text/measure.ts";
import type { PdfDocument } from "./file/pdf-document.ts";
import type { DocumentFont } from "./font/document-font.ts";
import { fillColor, num, path, pen, rounded } from "./operators.ts";
import type { Box } from "./tags/structure.ts";

/** What the items of a document are painted with. */
export type Ink = {
  readonly doc: PdfDocument;
  readonly fontOf: (weight: Weight) => DocumentFont;
  /** Pictures, opened already. */
  readonly images: ReadonlyMap<string, unknown>;
};

/** Paints one item's ink. `after`: set behind a text, unseen, such as the space between lines. */
export function paintItem(ink: Ink, item: Placed, after: string): void {
  const { doc } = ink;
  switch (item.kind) {
    case "text":
      paintText(ink, item, item.text + after, item.x, item.y);
      return;
    case "rule":
      doc.addContent(
        `${pen({ color: item.color, width: item.width, ...(item.dash ? { dash: item.dash } : {}) })} ${num(item.x1)} ${num(item.y1)} m ${num(item.x2)} ${num(item.y2)} l S`,
      );
      return;
    case "box":
      doc.addContent(
        `${fillColor(item.fill)} ${num(item.x)} ${num(item.y)} ${num(item.width)} ${num(item.height)} re f`,
      );
      return;
    case "drawing":
      paintDrawing(ink, item.drawing, item.x, item.y);
      return;
    case "image":
      doc.image(ink.images.get(item.image), item.x, item.y, { width: item.width, height: item.height });
  }
}

function paintDrawing(ink: Ink, drawing: Drawing, dx: number, dy: number): void {
  const { doc } = ink;
  for (const item of drawing.items) {
    if (item.kind === "path") {
      const operators = path(item, dx, dy);
      if (operators !== "") doc.addContent(operators);
      continue;
    }
    const [x, y] = [dx + item.x, dy + item.y];
    if (!item.angle) paintText(ink, item, item.text, x, y);
    else {
      doc.save();
      doc.rotate(item.angle, { origin: [x, y] });
      paintText(ink, item, item.text, x, y);
      doc.restore();
    }
  }
}

/** Sets a text from (x, y) of the page, whose own measure runs downwards: letters would stand on their heads. */
function paintText(
  { doc, fontOf }: Ink,
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
    `${fillColor(color)}\nq\n1 0 0 -1 0 ${rounded(height)} cm\nBT\n1 0 0 1 ${rounded(x)} ${rounded(up)} Tm\n/${font.id} ${rounded(size)} Tf\n${font.show(text, x, up, size)}\nET\nQ`,
  );
}

/** The box an item takes on its page. */
export function boxOf(item: Placed): Box {
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
    case "drawing":
      return [item.x, item.y, item.x + item.drawing.width, item.y + item.drawing.height];
    default:
      return [item.x, item.y, item.x + item.width, item.y + item.height];
  }
}
