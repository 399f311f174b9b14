import { hasError } from "../diagnostics/build.ts";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { Sheet, SheetCell, SheetRow } from "../sheet/content.ts";
import { sideBySide } from "./block.ts";
import { type Frame, shift } from "./flow-box.ts";
import { furniture, reserved } from "./furniture.ts";
import { type MissingGlyph, missingGlyphs } from "./missing-glyphs.ts";
import type { Page, Placed } from "./page.ts";
import { paginate } from "./paginate.ts";
import { type SetBlock, setBlock } from "./set-block.ts";
import type { LayoutEnv } from "./setting.ts";
import { grid } from "./type-sizes.ts";

export type LayoutResult = {
  readonly pages: readonly Page[];
  readonly diagnostics: readonly Diagnostic[];
  /** What the font cannot draw, for who can tell where it was typed. */
  readonly missing?: readonly MissingGlyph[];
};

/** Sets a sheet on pages. With an error among the diagnostics there are no pages. */
export function layoutSheet(sheet: Sheet, env: LayoutEnv): LayoutResult {
  const missing = missingGlyphs(sheet, env.measure);
  if (missing.length > 0) return { pages: [], diagnostics: missing.map(({ about }) => about), missing };
  return sheet.onePage ? onOnePage(sheet, env) : laid(sheet, withOptional(sheet, env), [], env);
}

/** All blocks, but optional ones only where they need no further page: earlier ones first. */
function withOptional(sheet: Sheet, env: LayoutEnv): Flowed {
  const cells = sheet.rows.flatMap((row) => row.cells);
  const optional = cells.filter(({ block }) => block.optional && block.parts.length > 0);
  const set = setBlocks(sheet, env);
  const rowsOf = (kept: ReadonlySet<SheetCell>) => onlyRows(sheet, kept);
  let kept: ReadonlySet<SheetCell> = new Set(cells.filter((cell) => !optional.includes(cell)));
  let flowed = flow(sheet, rowsOf(kept), set);
  for (const cell of optional) {
    const more = new Set([...kept, cell]);
    const longer = flow(sheet, rowsOf(more), set);
    if (longer.frames.length <= Math.max(1, flowed.frames.length)) [kept, flowed] = [more, longer];
  }
  return flowed;
}

/**
 * Keeps what fits one page, the highest priority first, earlier blocks before later ones. A block that is too large gives
 * way, and a smaller one after it may still have its place.
 */
function onOnePage(sheet: Sheet, env: LayoutEnv): LayoutResult {
  const cells = sheet.rows.flatMap((row) => row.cells).filter((cell) => cell.block.parts.length > 0);
  const more = sheet.more === undefined ? undefined : moreRow(sheet.more);
  const set = setBlocks({ ...sheet, rows: more ? [...sheet.rows, more] : sheet.rows }, env);
  // A word about the rest stands where something is missing.
  const rowsOf = (kept: ReadonlySet<SheetCell>) => [
    ...onlyRows(sheet, kept),
    ...(more && kept.size < cells.length ? [more] : []),
  ];
  const flowOf = (kept: ReadonlySet<SheetCell>) => flow(sheet, rowsOf(kept), set);
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
    hint: "give it a higher priority in the template, or shorten another block",
  }));
  if (flowed.frames.length > 1)
    diagnostics.push({
      severity: "warning",
      code: "layout/one-page",
      message: `what must stay on the ${sheet.template} takes ${flowed.frames.length} pages`,
      note: "nothing more could be left out",
    });
  return laid(sheet, flowed, diagnostics, env);
}

const onlyRows = (sheet: Sheet, kept: ReadonlySet<SheetCell>): readonly SheetRow[] =>
  sheet.rows.map((row) => ({ ...row, cells: row.cells.filter((cell) => kept.has(cell)) }));

type Flowed = { readonly frames: readonly Frame[]; readonly diagnostics: readonly Diagnostic[] };

function laid(
  sheet: Sheet,
  { frames, diagnostics: unfit }: Flowed,
  known: readonly Diagnostic[],
  env: LayoutEnv,
): LayoutResult {
  const diagnostics = [...known, ...unfit];
  const refused = hasError(unfit);
  return { pages: refused ? [] : finished(sheet, frames, env), diagnostics };
}

function moreRow(text: string): SheetRow {
  const parts = [{ kind: "paragraph", style: "quiet", text }] as const;
  return { cells: [{ block: { name: "more", parts, split: false, priority: 100 }, from: 0, span: grid.columns }] };
}

/** Every block that says something, set once: what is left out of a page changes nothing in the others. */
function setBlocks(sheet: Sheet, env: LayoutEnv): ReadonlyMap<SheetCell, SetBlock> {
  const pageHeight = liveArea(sheet).height - bannerRoom(sheet);
  const { colors } = sheet.theme;
  const column = columnOf(sheet);
  return new Map(
    sheet.rows.flatMap(({ cells }, r) =>
      cells
        .filter(({ block }) => block.parts.length > 0)
        .map((cell, c) => {
          const width = cell.span * column + (cell.span - 1) * grid.gutter;
          return [cell, setBlock(cell.block, { ...env, colors, width, pageHeight, id: `r${r}c${c}` })] as const;
        }),
    ),
  );
}

function flow(sheet: Sheet, rows: readonly SheetRow[], set: ReadonlyMap<SheetCell, SetBlock>): Flowed {
  const diagnostics: Diagnostic[] = [];
  const column = columnOf(sheet);
  const placed = rows.flatMap((row) => {
    const cells = row.cells.flatMap((cell) => {
      const own = set.get(cell);
      diagnostics.push(...(own?.diagnostics ?? []));
      return own ? [{ x: cell.from * (column + grid.gutter), block: own.block }] : [];
    });
    return cells.length > 0 ? [{ block: sideBySide(cells), newPage: row.newPage === true }] : [];
  });
  return { frames: paginate(placed, liveArea(sheet).height - bannerRoom(sheet)), diagnostics };
}

/** Adds furniture, and moves everything from the live area's corner to the paper's. */
function finished(sheet: Sheet, frames: readonly Frame[], env: LayoutEnv): readonly Page[] {
  const { paper } = sheet.theme;
  const area = liveArea(sheet);
  const top = bannerRoom(sheet);
  return frames.map((frame, i) => {
    const around = sheet.bare ? [] : furniture(i + 1, frames.length, { sheet, measure: env.measure, ...area });
    const { left, top: down } = paper.margin;
    return {
      width: paper.width,
      height: paper.height,
      items: rounded([...shift(frame.items, 0, top), ...around], left, down),
    };
  });
}

function liveArea({ theme: { paper } }: Sheet) {
  return {
    width: paper.width - paper.margin.left - paper.margin.right,
    height: paper.height - paper.margin.top - paper.margin.bottom,
  };
}

/** On both papers the grid's own column; a smaller page has narrower ones. */
const columnOf = (sheet: Sheet) =>
  Math.min(grid.column, (liveArea(sheet).width - (grid.columns - 1) * grid.gutter) / grid.columns);

const bannerRoom = (sheet: Sheet) => (sheet.furniture.banner === undefined ? 0 : reserved.banner);

/** Moved, and to a hundredth of a point: finer than any printer, and steady in a file. */
function rounded(items: readonly Placed[], dx: number, dy: number): readonly Placed[] {
  const to = (value: number) => Math.round(value * 100) / 100;
  return items.map((item) =>
    item.kind === "rule"
      ? { ...item, x1: to(item.x1 + dx), y1: to(item.y1 + dy), x2: to(item.x2 + dx), y2: to(item.y2 + dy) }
      : { ...item, x: to(item.x + dx), y: to(item.y + dy) },
  );
}
