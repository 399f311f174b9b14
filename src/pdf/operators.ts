import type { PathCommand, PathItem, Stroke } from "../charts/drawing.ts";

/** Formats a number to a thousandth of a point. Throws when it is not finite: a bug in the caller. */
export function formatNumber(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`not a number to paint: ${value}`);
  return String(Math.round(value * 1000) / 1000 + 0);
}

/** Rounds to a millionth, as pdfkit does. */
export const roundNumber = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;

const channels = (color: string) => [1, 3, 5].map((at) => Number.parseInt(color.slice(at, at + 2), 16) / 255);
export const fillOperator = (color: string) => `${channels(color).map(formatNumber).join(" ")} rg`;
const strokeOperator = (color: string) => `${channels(color).map(formatNumber).join(" ")} RG`;

/** Blends a translucent colour with white, so that the file needs no transparency. */
export function blendWithWhite(color: string, opacity: number): string {
  const mixed = channels(color).map((c) => Math.round((c * opacity + 1 - opacity) * 255));
  return `#${mixed.map((c) => c.toString(16).padStart(2, "0")).join("")}`;
}

const CAPS = { butt: 0, round: 1, square: 2 };
const JOINS = { miter: 0, round: 1, bevel: 2 };

/** Operators that set stroke colour, width, cap, join and dash. */
export function strokeOperators(stroke: Stroke): string {
  const dash = `[${(stroke.dash ?? []).map(formatNumber).join(" ")}] 0 d`;
  const cap = `${CAPS[stroke.cap ?? "butt"]} J`;
  const join = `${JOINS[stroke.join ?? "miter"]} j`;
  return [strokeOperator(stroke.color), `${formatNumber(stroke.width)} w`, cap, join, dash].join(" ");
}

/** Operators of a path translated by (dx, dy), filled, stroked or both. */
export function pathOperators(
  item: Pick<PathItem, "d" | "fill" | "fillOpacity" | "stroke">,
  dx: number,
  dy: number,
): string {
  const { fill, stroke } = item;
  if (item.d.length === 0 || (fill === undefined && stroke === undefined)) return "";
  const paint = fill && stroke ? "B" : fill ? "f" : "S";
  return [
    ...(fill ? [fillOperator(blendWithWhite(fill, item.fillOpacity ?? 1))] : []),
    ...(stroke ? [strokeOperators(stroke)] : []),
    ...item.d.map((command) => segmentOperator(command, dx, dy)),
    paint,
  ].join("\n");
}

function segmentOperator(command: PathCommand, dx: number, dy: number): string {
  switch (command[0]) {
    case "M":
      return `${formatNumber(command[1] + dx)} ${formatNumber(command[2] + dy)} m`;
    case "L":
      return `${formatNumber(command[1] + dx)} ${formatNumber(command[2] + dy)} l`;
    case "C": {
      const [, ...points] = command;
      return `${points.map((value, i) => formatNumber(value + (i % 2 === 0 ? dx : dy))).join(" ")} c`;
    }
    case "Z":
      return "h";
  }
}
