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

/** Leaves out the least of the blocks until one page holds the rest. */
function onOnePage(sheet: Sheet, env: LayoutEnv): Laid {
  const diagnostics: Diagnostic[] = [];
  let rows = sheet.rows;
  for (;;) {
    const left = diagnostics.length > 0 && sheet.more !== undefined;
    const frames = flow(sheet, left ? [...rows, moreRow(sheet.more!)] : rows, env);
    const least = leastOf(rows);
    if (frames.length <= 1 || least === undefined) {
      if (frames.length > 1)
        diagnostics.push({
          severity: "warning",
          code: "layout/one-page",
          message: `what must stay on the ${sheet.template} takes ${frames.length} pages`,
          note: "nothing more could be left out",
        });
      return { pages: finished(sheet, frames, env), diagnostics };
    }
    diagnostics.push({
      severity: "warning",
      code: "layout/left-out",
      message: `block ${least.block.name} does not fit the one page of the ${sheet.template} and was left out`,
      hint: "give it a higher priority in the template, or shorten another block",
    });
    rows = rows.map((row) => ({ ...row, cells: row.cells.filter((cell) => cell !== least) }));
  }
}

/** The block to leave out next: of lowest priority, the last of equals; none of 100. */
function leastOf(rows: readonly SheetRow[]): SheetCell | undefined {
  const cells = rows.flatMap((row) => row.cells).filter((cell) => cell.block.priority < 100);
  return cells.reduce<SheetCell | undefined>(
    (least, cell) => (least === undefined || cell.block.priority <= least.block.priority ? cell : least),
    undefined,
  );
}

function moreRow(text: string): SheetRow {
  const parts = [{ kind: "paragraph", style: "quiet", text }] as const;
  return { cells: [{ block: { name: "more", parts, split: false, priority: 100 }, from: 0, span: grid.columns }] };
}

function flow(sheet: Sheet, rows: readonly SheetRow[], env: LayoutEnv): readonly Frame[] {
  const { height } = liveArea(sheet);
  const pageHeight = height - reserved.foot - bannerRoom(sheet);
  const set = rows.flatMap((row, r) => {
    const cells = row.cells
      .filter((cell) => cell.block.parts.length > 0)
      .map((cell, c) => ({
        x: cell.from * (grid.column + grid.gutter),
        block: setBlock(cell.block, {
          ...env,
          colors: sheet.theme.colors,
          width: cell.span * grid.column + (cell.span - 1) * grid.gutter,
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
    const around = furniture(i + 1, frames.length, top + frame.height, { sheet, measure: env.measure, ...area });
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
