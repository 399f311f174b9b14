import type { Point } from "./geometry.ts";

/** The part of a canvas that an outline is drawn on. */
export type Pen = {
  readonly moveTo: (x: number, y: number) => void;
  readonly lineTo: (x: number, y: number) => void;
  readonly closePath: () => void;
};

/** A path through points of the panel, from its upper left corner [pt], in the form in which Vega's shape mark asks for one. */
export type Outline = { readonly context: (pen: Pen) => () => void };

export const outline = (points: readonly Point[], closed: boolean): Outline => ({
  context: (pen) => () => {
    points.forEach(([x, y], i) => {
      if (i === 0) pen.moveTo(x, y);
      else pen.lineTo(x, y);
    });
    if (closed) pen.closePath();
  },
});
