import type { Weight } from "../text/measure.ts";

/** A drawing in points, y downwards from its top left corner, fully laid out. */
export type Drawing = { readonly width: number; readonly height: number; readonly items: readonly DrawingItem[] };

/** Kind of item, for tests and tags. */
export type DrawingRole = "curve" | "reading" | "error-bar" | "band" | "bar" | "axis" | "grid" | "label" | "shape";

export type DrawingItem = PathItem | TextItem;

export type PathItem = {
  readonly kind: "path";
  readonly role: DrawingRole;
  readonly d: readonly PathCommand[];
  readonly fill?: string;
  readonly fillOpacity?: number;
  readonly stroke?: Stroke;
};

export type Stroke = {
  readonly color: string;
  readonly width: number;
  readonly dash?: readonly number[];
  readonly cap?: "butt" | "round" | "square";
  readonly join?: "miter" | "round" | "bevel";
};

/** Absolute coordinates; cubic curves only. */
export type PathCommand =
  | readonly ["M", number, number]
  | readonly ["L", number, number]
  | readonly ["C", number, number, number, number, number, number]
  | readonly ["Z"];

export type TextItem = {
  readonly kind: "text";
  readonly role: DrawingRole;
  readonly text: string;
  /** Start of the baseline, before rotation. */
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly weight: Weight;
  readonly color: string;
  /** Degrees clockwise about (x, y). */
  readonly angle?: number;
};

/** Rounds a position to a thousandth of a point, finer than any press, to keep files short. */
export function roundPoint(value: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`a chart position is not a number: ${value}`);
  return Math.round(value * 1000) / 1000 + 0;
}
