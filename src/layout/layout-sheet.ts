import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { Sheet, SheetCell, SheetRow } from "../sheet/content.ts";
import { sideBySide } from "./block.ts";
import { furniture, reserved } from "./furniture.ts";
import { missingGlyphs } from "./missing-glyphs.ts";
import type { Page, Placed } from "./page.ts";
import { paginate } from "./paginate.ts";
import { setBlock } from "./set-block.ts";
import type { LayoutEnv } from "./setting.ts";
import { type Frame, shift } from "./slab.ts";
import { grid } from "./type-sizes.ts";

export type Laid = { readonly pages: readonly Page[]; readonly diagnostics: readonly Diagnostic[] };

/** Sets a sheet on pages. With an error among the diagnostics there are no pages. */
export function layoutSheet(sheet: Sheet, env: LayoutEnv): Laid {
  const missing = missingGlyphs(sheet, env.measure);
  if (missing.length > 0) return { pages: [], diagnostics: missing };
  if (!sheet.onePage) return { pages: finished(sheet, flow(sheet, sheet.rows, env), env), diagnostics: [] };
  return onOnePage(sheet, env);
}

/**
 * Keeps what fits one page, the highest priority first, earlier blocks before later ones. A block that is too large gives
 * way, and a smaller one after it may still have its place.
 */
function onOnePage(sheet: Sheet, env: LayoutEnv): Laid {
  const cells = sheet.rows.flatMap((row) => row.cells).filter((cell) => cell.block.parts.length > 0);
  const fits = (kept: ReadonlySet<SheetCell>) => flow(sheet, onlyRows(sheet, kept, cells.length), env).length <= 1;
  let kept: ReadonlySet<SheetCell> = new Set(cells);
  if (!fits(kept)) {
    kept = new Set(cells.filter((cell) => cell.block.priority >= 100));
    for (const cell of cells.toSorted((a, b) => b.block.priority - a.block.priority)) {
      const more = new Set([...kept, cell]);
      if (!kept.has(cell) && fits(more)) kept = more;
    }
  }
  const frames = flow(sheet, onlyRows(sheet, kept, cells.length), env);
  const left = cells.filter((cell) => !kept.has(cell));
  const diagnostics: Diagnostic[] = left.map(({ block }) => ({
    severity: "warning",
    code: "layout/left-out",
    message: `block ${block.name} does not fit the one page of the ${sheet.template} and was left out`,
    hint: "give it a higher priority in the template, or shorten another block",
  }));
  if (frames.length > 1)
    diagnostics.push({
      severity: "warning",
      code: "layout/one-page",
      message: `what must stay on the ${sheet.template} takes ${frames.length} pages`,
      note: "nothing more could be left out",
    });
  return { pages: finished(sheet, frames, env), diagnostics };
}

/** The rows with the blocks that are kept; a word about the rest where something is missing. */
function onlyRows(sheet: Sheet, kept: ReadonlySet<SheetCell>, all: number): readonly SheetRow[] {
  const rows = sheet.rows.map((row) => ({ ...row, cells: row.cells.filter((cell) => kept.has(cell)) }));
  return kept.size < all && sheet.more !== undefined ? [...rows, moreRow(sheet.more)] : rows;
}

function moreRow(text: string): SheetRow {
  const parts = [{ kind: "paragraph", style: "quiet", text }] as const;
  return { cells: [{ block: { name: "more", parts, split: false, priority: 100 }, from: 0, span: grid.columns }] };
}

function flow(sheet: Sheet, rows: readonly SheetRow[], env: LayoutEnv): readonly Frame[] {
  const { width, height } = liveArea(sheet);
  const pageHeight = height - bannerRoom(sheet);
  // On both papers the grid's own column; a smaller page has narrower ones.
  const column = Math.min(grid.column, (width - (grid.columns - 1) * grid.gutter) / grid.columns);
  const set = rows.flatMap((row, r) => {
    const cells = row.cells
      .filter((cell) => cell.block.parts.length > 0)
      .map((cell, c) => ({
        x: cell.from * (column + grid.gutter),
        block: setBlock(cell.block, {
          ...env,
          colors: sheet.theme.colors,
          width: cell.span * column + (cell.span - 1) * grid.gutter,
          pageHeight,
          id: `r${r}c${c}`,
        }),
      }));
    return cells.length > 0 ? [{ block: sideBySide(cells), newPage: row.newPage === true }] : [];
  });
  return paginate(set, pageHeight);
}

/** Adds furniture, and moves everything from the live area's corner to the paper's. */
function finished(sheet: Sheet, frames: readonly Frame[], env: LayoutEnv): readonly Page[] {
  const { paper } = sheet.theme;
  const area = liveArea(sheet);
  const top = bannerRoom(sheet);
  return frames.map((frame, i) => {
    const around = sheet.bare ? [] : furniture(i + 1, frames.length, { sheet, measure: env.measure, ...area });
    const items = [...shift(frame.items, 0, top), ...around];
    return {
      width: paper.width,
      height: paper.height,
      items: rounded(shift(items, paper.margin.left, paper.margin.top)),
    };
  });
}

function liveArea({ theme: { paper } }: Sheet) {
  return {
    width: paper.width - paper.margin.left - paper.margin.right,
    height: paper.height - paper.margin.top - paper.margin.bottom,
  };
}

const bannerRoom = (sheet: Sheet) => (sheet.furniture.banner === undefined ? 0 : reserved.banner);

/** To a hundredth of a point: finer than any printer, and steady in a file. */
function rounded(items: readonly Placed[]): readonly Placed[] {
  const to = (value: number) => Math.round(value * 100) / 100;
  return items.map((item) =>
    item.kind === "rule"
      ? { ...item, x1: to(item.x1), y1: to(item.y1), x2: to(item.x2), y2: to(item.y2) }
      : { ...item, x: to(item.x), y: to(item.y) },
  );
}
