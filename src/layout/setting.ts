import type { Drawing } from "../charts/drawing.ts";
import type { Chart, Sheet, TrueSize } from "../sheet/content.ts";
import type { Measure } from "../text/measure.ts";

/** Dependencies of layout: text measure, chart renderer, image sizes in pixels. */
export type LayoutEnv = {
  readonly measure: Measure;
  readonly draw: (
    chart: Chart,
    size: { readonly width: number; readonly height: number },
    options: { readonly labelRoom?: number },
  ) => Drawing;
  /** Draws at 1 : 1; undefined where it is wider than the room. */
  readonly drawTrueSize: (content: TrueSize, room: number) => Drawing | undefined;
  /** Room for line-end labels in a chart of this width; charts side by side use the largest. */
  readonly labelRoom?: (chart: Chart, measure: Measure, width: number) => number;
  /** A smaller chart cannot be drawn [pt]. */
  readonly leastChart?: { readonly width: number; readonly height: number; readonly secondScale: number };
  readonly images: ReadonlyMap<string, { readonly width: number; readonly height: number }>;
};

/** Context of a part: its width, its block's name, its id for tags. */
export type PartContext = LayoutEnv & {
  readonly colors: Sheet["theme"]["colors"];
  readonly width: number;
  /** Height of a fresh page: nothing that cannot be divided may be taller. */
  readonly pageHeight: number;
  readonly block: string;
  readonly id: string;
};
