import type { PathCommand, PathItem, Stroke } from "../charts/drawing.ts";

/** A number as PDF wants it, to a thousandth of a point; anything else is our own fault. */
export function num(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`not a number to paint: ${value}`);
  return String(Math.round(value * 1000) / 1000 + 0);
}

/** A number as pdfkit writes it, to a millionth. */
export const rounded = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;

const channels = (color: string) => [1, 3, 5].map((at) => Number.parseInt(color.slice(at, at + 2), 16) / 255);
export const fillColor = (color: string) => `${channels(color).map(num).join(" ")} rg`;
const strokeColor = (color: string) => `${channels(color).map(num).join(" ")} RG`;

/** A colour laid thinly on white paper, mixed beforehand: the file needs no transparency. */
export function onPaper(color: string, opacity: number): string {
  const mixed = channels(color).map((c) => Math.round((c * opacity + 1 - opacity) * 255));
  return `#${mixed.map((c) => c.toString(16).padStart(2, "0")).join("")}`;
}

const caps = { butt: 0, round: 1, square: 2 };
const joins = { miter: 0, round: 1, bevel: 2 };

/** Operators that set a pen. */
export function pen(stroke: Stroke): string {
  const dash = `[${(stroke.dash ?? []).map(num).join(" ")}] 0 d`;
  const cap = `${caps[stroke.cap ?? "butt"]} J`;
  const join = `${joins[stroke.join ?? "miter"]} j`;
  return [strokeColor(stroke.color), `${num(stroke.width)} w`, cap, join, dash].join(" ");
}

/** A path moved by (dx, dy), filled or stroked or both. */
export function path(item: Pick<PathItem, "d" | "fill" | "fillOpacity" | "stroke">, dx: number, dy: number): string {
  const { fill, stroke } = item;
  if (item.d.length === 0 || (fill === undefined && stroke === undefined)) return "";
  const paint = fill && stroke ? "B" : fill ? "f" : "S";
  return [
    ...(fill ? [fillColor(onPaper(fill, item.fillOpacity ?? 1))] : []),
    ...(stroke ? [pen(stroke)] : []),
    ...item.d.map((command) => segment(command, dx, dy)),
    paint,
  ].join("\n");
}

function segment(command: PathCommand, dx: number, dy: number): string {
  switch (command[0]) {
    case "M":
      return `${num(command[1] + dx)} ${num(command[2] + dy)} m`;
    case "L":
      return `${num(command[1] + dx)} ${num(command[2] + dy)} l`;
    case "C": {
      const [, ...points] = command;
      return `${points.map((value, i) => num(value + (i % 2 === 0 ? dx : dy))).join(" ")} c`;
    }
    case "Z":
      return "h";
  }
}
