import { hasError } from "../diagnostics/build.ts";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { Sheet } from "../sheet/content.ts";
import { composePages } from "./compose.ts";
import { deferDrawings } from "./defer-drawings.ts";
import { shift } from "./flow-box.ts";
import { furniture, reserved } from "./furniture.ts";
import { growPage } from "./grow.ts";
import { type MissingGlyph, missingGlyphs } from "./missing-glyphs.ts";
import { composeOnePage } from "./one-page.ts";
import type { Page, PlacedItem } from "./page.ts";
import { type PageFill, pageFills } from "./page-fill.ts";
import { itemsOf, type PageFrame } from "./paginate.ts";
import type { LayoutEnv } from "./setting.ts";
import { createTypesetter, sheetRows } from "./typeset-rows.ts";

export type LayoutResult = {
  readonly pages: readonly Page[];
  readonly diagnostics: readonly Diagnostic[];
  /** How full each page is. */
  readonly fills: readonly PageFill[];
  /** Characters that the font lacks, for the caller to locate in the job. */
  readonly missing?: readonly MissingGlyph[];
};

/** Lays out a sheet on pages; no pages if a diagnostic is an error. */
export function layoutSheet(sheet: Sheet, env: LayoutEnv): LayoutResult {
  const missing = missingGlyphs(sheet, env.measure);
  if (missing.length > 0) return { pages: [], fills: [], diagnostics: missing.map(({ about }) => about), missing };
  const deferred = deferDrawings(env);
  const room = flowRoom(sheet);
  const setter = createTypesetter(room, sheet.theme, deferred.env);
  const rows = sheetRows(sheet.rows, env.images);
  const composed = sheet.onePage
    ? composeOnePage(rows, sheet, setter)
    : { ...composePages(rows, setter), diagnostics: [] };
  const unfit = composed.rows.flatMap(({ cells }) => cells.flatMap(({ set }) => set.diagnostics));
  const diagnostics = [...composed.diagnostics, ...unfit];
  if (hasError(unfit)) return { pages: [], fills: [], diagnostics };
  const grown = composed.pages.map((page) => growPage(page, setter));
  return {
    pages: finishPages(sheet, grown, env, deferred.resolve),
    fills: pageFills(grown),
    diagnostics,
  };
}

/** Adds furniture, draws the charts, and moves all items from the room for blocks to the paper. */
function finishPages(
  sheet: Sheet,
  frames: readonly PageFrame[],
  { measure }: LayoutEnv,
  resolve: (item: PlacedItem) => PlacedItem,
): readonly Page[] {
  const { paper } = sheet.theme;
  const area = liveArea(sheet);
  const top = bannerRoom(sheet);
  return frames.map((frame, i) => {
    const around = sheet.bare ? [] : furniture(i + 1, frames.length, { sheet, measure, ...area });
    const down = i === 0 ? top : top + headRoom(sheet);
    const items = [...shift(itemsOf(frame), 0, down), ...around].map(resolve);
    return {
      width: paper.width,
      height: paper.height,
      items: moveAndRound(items, paper.margin.left, paper.margin.top),
    };
  });
}

/** The room for blocks. */
function flowRoom(sheet: Sheet) {
  const area = liveArea(sheet);
  const height = area.height - bannerRoom(sheet) - (sheet.bare ? 0 : reserved.foot);
  return { width: area.width, height, later: height - headRoom(sheet) };
}

function liveArea({ theme: { paper } }: Sheet) {
  return {
    width: paper.width - paper.margin.left - paper.margin.right,
    height: paper.height - paper.margin.top - paper.margin.bottom,
  };
}

/** Of pages after the first. */
const headRoom = (sheet: Sheet) => (sheet.furniture.head === undefined ? 0 : reserved.head);

const bannerRoom = (sheet: Sheet) => (sheet.furniture.banner === undefined ? 0 : reserved.banner);

/** Moves items and rounds positions to a hundredth of a point. */
function moveAndRound(items: readonly PlacedItem[], dx: number, dy: number): readonly PlacedItem[] {
  const to = (value: number) => Math.round(value * 100) / 100;
  return items.map((item) =>
    item.kind === "rule"
      ? { ...item, x1: to(item.x1 + dx), y1: to(item.y1 + dy), x2: to(item.x2 + dx), y2: to(item.y2 + dy) }
      : { ...item, x: to(item.x + dx), y: to(item.y + dy) },
  );
}
