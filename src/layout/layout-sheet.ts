import { hasError } from "../diagnostics/build.ts";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { Sheet, SheetCell, SheetRow } from "../sheet/content.ts";
import { rowBlock } from "./block.ts";
import { shift } from "./flow-box.ts";
import { furniture, reserved } from "./furniture.ts";
import { type MissingGlyph, missingGlyphs } from "./missing-glyphs.ts";
import type { Page, PlacedItem } from "./page.ts";
import { type PageFill, pageFills } from "./page-fill.ts";
import { itemsOf, type PageFrame, paginate } from "./paginate.ts";
import { type TypesetBlock, typesetBlock } from "./set-block.ts";
import type { LayoutEnv } from "./setting.ts";
import { grid } from "./type-sizes.ts";

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
  return sheet.onePage ? layoutOnePage(sheet, env) : layoutResult(sheet, flowWithOptional(sheet, env), [], env);
}

/** Lays out all blocks, optional ones only if they need no further page, earlier ones first. */
function flowWithOptional(sheet: Sheet, env: LayoutEnv): FlowResult {
  const cells = sheet.rows.flatMap((row) => row.cells);
  const optional = cells.filter(({ block }) => block.optional && block.parts.length > 0);
  const set = typesetBlocks(sheet, env);
  const rowsOf = (kept: ReadonlySet<SheetCell>) => filterRows(sheet, kept);
  let kept: ReadonlySet<SheetCell> = new Set(cells.filter((cell) => !optional.includes(cell)));
  let flowed = flowRows(sheet, rowsOf(kept), set);
  for (const cell of optional) {
    const more = new Set([...kept, cell]);
    const longer = flowRows(sheet, rowsOf(more), set);
    if (longer.frames.length <= Math.max(1, flowed.frames.length)) [kept, flowed] = [more, longer];
  }
  return flowed;
}

/**
 * Keeps what fits one page, the highest priority first, earlier blocks before later ones. A block that is too large gives
 * way, and a smaller one after it may still have its place.
 */
function layoutOnePage(sheet: Sheet, env: LayoutEnv): LayoutResult {
  const cells = sheet.rows.flatMap((row) => row.cells).filter((cell) => cell.block.parts.length > 0);
  const more = sheet.more === undefined ? undefined : continuationRow(sheet.more);
  const set = typesetBlocks({ ...sheet, rows: more ? [...sheet.rows, more] : sheet.rows }, env);
  // The sentence `more`, that another sheet has the rest, stands only where a block was left out.
  const rowsOf = (kept: ReadonlySet<SheetCell>) => [
    ...filterRows(sheet, kept),
    ...(more && kept.size < cells.length ? [more] : []),
  ];
  const flowOf = (kept: ReadonlySet<SheetCell>) => flowRows(sheet, rowsOf(kept), set);
  let kept: ReadonlySet<SheetCell> = new Set(cells);
  let flowed = flowOf(kept);
  if (flowed.frames.length > 1) {
    kept = new Set(cells.filter((cell) => cell.block.priority >= 100));
    flowed = flowOf(kept);
    for (const cell of cells.toSorted((a, b) => b.block.priority - a.block.priority)) {
      if (kept.has(cell)) continue;
      const wider = new Set([...kept, cell]);
      const more = flowOf(wider);
      if (more.frames.length <= 1) [kept, flowed] = [wider, more];
    }
  }
  const left = cells.filter((cell) => !kept.has(cell));
  const diagnostics: Diagnostic[] = left.map(({ block }) => ({
    severity: "warning",
    code: "layout/left-out",
    message: `block ${block.name} does not fit the one page of the ${sheet.template} and was left out`,
    block: block.name,
    hint: "give it a higher priority in the template, or shorten another block",
  }));
  if (flowed.frames.length > 1)
    diagnostics.push({
      severity: "warning",
      code: "layout/one-page",
      message: `what must stay on the ${sheet.template} takes ${flowed.frames.length} pages`,
      note: "nothing more could be left out",
    });
  return layoutResult(sheet, flowed, diagnostics, env);
}

const filterRows = (sheet: Sheet, kept: ReadonlySet<SheetCell>): readonly SheetRow[] =>
  sheet.rows.map((row) => ({ ...row, cells: row.cells.filter((cell) => kept.has(cell)) }));

type FlowResult = { readonly frames: readonly PageFrame[]; readonly diagnostics: readonly Diagnostic[] };

function layoutResult(
  sheet: Sheet,
  { frames, diagnostics: unfit }: FlowResult,
  known: readonly Diagnostic[],
  env: LayoutEnv,
): LayoutResult {
  const diagnostics = [...known, ...unfit];
  if (hasError(unfit)) return { pages: [], fills: [], diagnostics };
  const room = liveArea(sheet).height - bannerRoom(sheet);
  return { pages: finishPages(sheet, frames, env), fills: pageFills(frames, room), diagnostics };
}

function continuationRow(text: string): SheetRow {
  const parts = [{ kind: "paragraph", style: "quiet", text }] as const;
  return { cells: [{ block: { name: "more", parts, split: false, priority: 100 }, from: 0, span: grid.columns }] };
}

/** Typesets every block that is not empty once, for all attempts at pagination. */
function typesetBlocks(sheet: Sheet, env: LayoutEnv): ReadonlyMap<SheetCell, TypesetBlock> {
  const pageHeight = liveArea(sheet).height - bannerRoom(sheet);
  const { colors } = sheet.theme;
  const column = columnWidth(sheet);
  return new Map(
    sheet.rows.flatMap(({ cells }, r) =>
      cells
        .filter(({ block }) => block.parts.length > 0)
        .map((cell, c) => {
          const width = cell.span * column + (cell.span - 1) * grid.gutter;
          return [cell, typesetBlock(cell.block, { ...env, colors, width, pageHeight, id: `r${r}c${c}` })] as const;
        }),
    ),
  );
}

function flowRows(sheet: Sheet, rows: readonly SheetRow[], set: ReadonlyMap<SheetCell, TypesetBlock>): FlowResult {
  const diagnostics: Diagnostic[] = [];
  const column = columnWidth(sheet);
  const placed = rows.flatMap((row) => {
    const cells = row.cells.flatMap((cell) => {
      const own = set.get(cell);
      diagnostics.push(...(own?.diagnostics ?? []));
      return own ? [{ x: cell.from * (column + grid.gutter), block: own.block }] : [];
    });
    return cells.length > 0 ? [{ block: rowBlock(cells), newPage: row.newPage === true }] : [];
  });
  return { frames: paginate(placed, liveArea(sheet).height - bannerRoom(sheet)), diagnostics };
}

/** Adds furniture and moves all items from the live area to the paper. */
function finishPages(sheet: Sheet, frames: readonly PageFrame[], env: LayoutEnv): readonly Page[] {
  const { paper } = sheet.theme;
  const area = liveArea(sheet);
  const top = bannerRoom(sheet);
  return frames.map((frame, i) => {
    const around = sheet.bare ? [] : furniture(i + 1, frames.length, { sheet, measure: env.measure, ...area });
    const { left, top: down } = paper.margin;
    return {
      width: paper.width,
      height: paper.height,
      items: moveAndRound([...shift(itemsOf(frame), 0, top), ...around], left, down),
    };
  });
}

function liveArea({ theme: { paper } }: Sheet) {
  return {
    width: paper.width - paper.margin.left - paper.margin.right,
    height: paper.height - paper.margin.top - paper.margin.bottom,
  };
}

/** Width of a column: the grid's, or narrower on a smaller page. */
const columnWidth = (sheet: Sheet) =>
  Math.min(grid.column, (liveArea(sheet).width - (grid.columns - 1) * grid.gutter) / grid.columns);

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
