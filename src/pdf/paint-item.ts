import type { Drawing } from "../charts/drawing.ts";
import type { Placed, PlacedText } from "../layout/page.ts";
import { fillColor, num, path, pen } from "./operators.ts";
import type { PdfDocument } from "./pdf-document.ts";
import type { Box } from "./structure.ts";

/** Paints one item's ink; `images` are opened already. `after`: set behind a text, unseen, such as the space between lines. */
export function paintItem(doc: PdfDocument, item: Placed, images: ReadonlyMap<string, unknown>, after: string): void {
  switch (item.kind) {
    case "text":
      paintText(doc, { ...item, text: item.text + after });
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
      paintDrawing(doc, item.drawing, item.x, item.y);
      return;
    case "image":
      doc.image(images.get(item.image), item.x, item.y, { width: item.width, height: item.height });
  }
}

function paintDrawing(doc: PdfDocument, drawing: Drawing, x: number, y: number): void {
  for (const item of drawing.items) {
    if (item.kind === "path") {
      const operators = path(item, x, y);
      if (operators !== "") doc.addContent(operators);
      continue;
    }
    const at = { ...item, x: x + item.x, y: y + item.y };
    if (!item.angle) paintText(doc, at);
    else {
      doc.save();
      doc.rotate(item.angle, { origin: [at.x, at.y] });
      paintText(doc, at);
      doc.restore();
    }
  }
}

function paintText(doc: PdfDocument, item: Pick<PlacedText, "text" | "x" | "y" | "size" | "weight" | "color">): void {
  doc.font(item.weight);
  doc.fontSize(item.size);
  doc.addContent(fillColor(item.color));
  doc.text(item.text, item.x, item.y, { lineBreak: false, baseline: "alphabetic" });
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
