import type { PathCommand } from "../../src/charts/drawing.ts";

/** A drawing's path as SVG writes it. */
export const pathOf = (d: readonly PathCommand[]): string =>
  d.map(([letter, ...places]) => letter + places.join(" ")).join("");
