import type { Drawing } from "../charts/drawing.ts";
import type { Chart, Grow, Sheet, TrueSize } from "../sheet/content.ts";
import type { Measure } from "../text/measure.ts";
import type { TypeSizes } from "./type-sizes.ts";

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

/** What grows: plots first, all on a page by the same height, then pictures. */
export type GrowthKind = "plot" | "picture";
export type Extra = Readonly<Record<GrowthKind, number>>;

/** Height of a part at its share of the room: its own where it does not grow. */
export const grownHeight = (
  part: { readonly height: number; readonly grow?: Grow },
  kind: GrowthKind,
  { extra }: Pick<PartContext, "extra">,
): number => (part.grow === undefined ? part.height : Math.min(part.grow[1], part.grow[0] + (extra?.[kind] ?? 0)));

/** Context of a part: its width, its block's name, its id for tags. */
export type PartContext = LayoutEnv & {
  readonly colors: Sheet["theme"]["colors"];
  readonly types: TypeSizes;
  /** Read on a phone: one column, nothing to tick. */
  readonly phone?: boolean;
  readonly width: number;
  /** Height of a fresh page: nothing that cannot be divided may be taller. */
  readonly pageHeight: number;
  /** Height that a part takes beyond its least where it may grow [pt]. */
  readonly extra?: Extra;
  readonly block: string;
  readonly id: string;
  /** The table without a title of its own that this heading or paragraph stands over as its caption. */
  readonly captions?: string;
};
