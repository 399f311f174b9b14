import type { Drawing } from "../charts/drawing.ts";
import type { Chart, Sheet, TrueSize } from "../sheet/content.ts";
import type { Measure } from "../text/measure.ts";

/** What layout asks of the world: one measure, a hand that draws charts, the sizes of pictures in pixels. */
export type LayoutEnv = {
  readonly measure: Measure;
  readonly draw: (
    chart: Chart,
    size: { readonly width: number; readonly height: number },
    options: { readonly labelRoom?: number },
  ) => Drawing;
  /** Draws at 1 : 1; undefined where it is wider than the room. */
  readonly drawTrueSize: (content: TrueSize, room: number) => Drawing | undefined;
  /** Room that a chart of this width wants for the labels at its lines' ends; charts side by side share the most. */
  readonly labelRoom?: (chart: Chart, measure: Measure, width: number) => number;
  /** A smaller chart cannot be drawn [pt]. */
  readonly leastChart?: { readonly width: number; readonly height: number; readonly secondScale: number };
  readonly images: ReadonlyMap<string, { readonly width: number; readonly height: number }>;
};

/** Where a part is set: the width it has, the name of its block, and an id of its own for tags. */
export type Setting = LayoutEnv & {
  readonly colors: Sheet["theme"]["colors"];
  readonly width: number;
  /** Height of a fresh page: nothing that cannot be divided may be taller. */
  readonly pageHeight: number;
  readonly block: string;
  readonly id: string;
};
