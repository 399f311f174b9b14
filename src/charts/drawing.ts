import type { Weight } from "../text/measure.ts";

/** A drawing in points, y downwards from its top left corner; already laid out, nothing to decide while painting. */
export type Drawing = { readonly width: number; readonly height: number; readonly items: readonly DrawingItem[] };

/** What an item is, for tests and tags: a plotted reading, a curve, an axis, a grid line, a label. */
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

/** Absolute coordinates throughout; cubic curves only. */
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
