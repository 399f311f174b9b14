import { type Drawing, type DrawingItem, type PathCommand, roundPoint } from "./drawing.ts";

/** A drawing enlarged as a whole: lines, marks and type alike. */
export const scaleDrawing = ({ width, height, items }: Drawing, by: number): Drawing => ({
  width: width * by,
  height: height * by,
  items: items.map((item): DrawingItem => {
    if (item.kind === "text") return { ...item, x: at(item.x, by), y: at(item.y, by), size: at(item.size, by) };
    const d = item.d.map(
      ([name, ...places]) => [name, ...places.map((place) => at(place, by))] as unknown as PathCommand,
    );
    if (!item.stroke) return { ...item, d };
    const { width: line, dash, ...stroke } = item.stroke;
    const dashed = dash === undefined ? {} : { dash: dash.map((length) => at(length, by)) };
    return { ...item, d, stroke: { ...stroke, width: at(line, by), ...dashed } };
  }),
});

const at = (value: number, by: number) => roundPoint(value * by);
