import type { DrawingItem } from "../../src/charts/drawing.ts";
import type { Page } from "../../src/layout/page.ts";
import type { Chart, DotStrip, FlowPanel, Part, Sheet } from "../../src/sheet/content.ts";
import { boxOf } from "./boxes.ts";

/** Share of a page that plots cover: the ground of their grid lines, without labels and titles. */
export function plotShare({ width, height, items }: Page): number {
  const areas = items.map((item) => (item.kind === "drawing" ? plotArea(item.drawing.items) : 0));
  return areas.reduce((sum, area) => sum + area, 0) / (width * height);
}

function plotArea(items: readonly DrawingItem[]): number {
  const points = items.flatMap((item) =>
    item.kind === "path" && (item.role === "grid" || item.role === "axis")
      ? item.d.flatMap((step) => (step[0] === "M" || step[0] === "L" ? [[step[1], step[2]] as const] : []))
      : [],
  );
  if (!items.some(({ role }) => role === "grid")) return 0;
  const span = (values: readonly number[]) => Math.max(...values) - Math.min(...values);
  return span(points.map(([x]) => x)) * span(points.map(([, y]) => y));
}

/** White left and right of all that stands on a page [pt]. */
export function sideMargins({ width, items }: Page): { readonly left: number; readonly right: number } {
  const boxes = items.map(boxOf);
  return {
    left: Math.min(...boxes.map(({ left }) => left)),
    right: width - Math.max(...boxes.map(({ right }) => right)),
  };
}

export const typeSizes = ({ items }: Page): ReadonlySet<number> =>
  new Set(items.flatMap((item) => (item.kind === "text" ? item.size : [])));

export const headings = ({ items }: Page): readonly string[] => [
  ...new Set(items.flatMap((item) => (item.kind === "text" && item.tag.kind === "heading" ? item.tag.id : []))),
];

/** Widths of the tables on a page, of their rules [pt]. */
export function tableWidths({ items }: Page): readonly { readonly block: string; readonly width: number }[] {
  const tables = new Map<string, string>();
  for (const { tag, block } of items) if (tag.kind === "cell") tables.set(tag.table, block);
  return [...new Set(tables.values())].flatMap((block) => {
    const rules = items.flatMap((item) => (item.kind === "rule" && item.block === block ? item.x2 - item.x1 : []));
    return rules.length > 0 ? [{ block, width: Math.max(...rules) }] : [];
  });
}

const partsOf = ({ rows }: Sheet): readonly Part[] =>
  rows.flatMap(({ cells }) => cells.flatMap(({ block }) => block.parts));

/** Panels of a sheet: they share their axes, side by side or one under the other. */
export const flowPanels = (sheet: Sheet): readonly FlowPanel[] =>
  partsOf(sheet).flatMap((part) => (part.kind === "flow-panels" ? part.panels.map(({ chart }) => chart) : []));

/** How much of the height of panels with shared axes their highest reading takes. */
export function dataHeight(panels: readonly FlowPanel[]): number {
  const tops = panels.flatMap(({ series }) => series.flatMap(({ points }) => points.map(({ y }) => y)));
  return Math.max(...tops) / Math.max(...panels.map(({ y }) => y.end));
}

/** Every strip of dots on a sheet. */
export const dotStrips = (sheet: Sheet): readonly DotStrip[] =>
  partsOf(sheet).flatMap((part) => {
    const charts: readonly (Chart | undefined)[] =
      part.kind === "flow-panels"
        ? part.panels.map(({ strip }) => strip?.chart)
        : part.kind === "charts"
          ? part.charts.map(({ chart }) => chart)
          : [];
    return charts.flatMap((chart) => (chart?.kind === "dot-strip" ? [chart] : []));
  });

/** Dots that contradict the ground they stand on: hollow outside the zone, or filled within it. */
export const contradictingDots = ({ dots, zone }: DotStrip): readonly DotStrip["dots"][number][] =>
  dots.filter(({ x, y, hollow }) => {
    const ground = zone.find((reach) => Math.abs(reach.x - x) < 1e-9);
    return ground !== undefined && hollow !== (y >= ground.low - 1e-9 && y <= ground.high + 1e-9);
  });
