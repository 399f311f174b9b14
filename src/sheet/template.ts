/** A checked template: which blocks a sheet holds, in what order, and where on the grid of six columns. */
export type Template = {
  readonly name: string;
  readonly onePage: boolean;
  readonly paper?: "A4" | "Letter" | "phone";
  /** All of it once for each head of a pair. */
  readonly perHead?: boolean;
  readonly rows: readonly TemplateRow[];
};

export type TemplateRow = {
  readonly cells: readonly TemplateCell[];
  readonly newPage: boolean;
  /** Begins a page, but stands on the page before where that has room for it. */
  readonly pullUp?: boolean;
};

export type TemplateCell = {
  readonly block: string;
  /** First column, 0 to 5, and how many columns wide. */
  readonly from: number;
  readonly span: number;
  /** Height of charts and pictures in the block [pt]. */
  readonly height?: number;
  /** Higher stays longer on a one-page sheet. */
  readonly priority?: number;
  /** Replaces the block's own heading. */
  readonly title?: string;
  /** May be divided between pages. */
  readonly split?: boolean;
  /** Left out if it would need a further page. */
  readonly optional?: boolean;
  /** Least and most height of its charts [pt], in place of one. */
  readonly grow?: readonly number[];
  /** What to do on an over-full page: see `BlockContent`. */
  readonly gives?: number;
  readonly goes_on?: boolean;
  readonly overleaf?: number;
  readonly with?: string;
  readonly without?: string;
};

/** Blocks of a row as a template names them: a span where it states one. */
type UnplacedBlock = Omit<TemplateCell, "from" | "span"> & { readonly span?: number };
type UnplacedTemplate = Omit<Template, "rows"> & {
  readonly rows: readonly (Omit<TemplateRow, "cells"> & { readonly blocks: readonly UnplacedBlock[] })[];
};

const COLUMNS = 6;

/** Assigns columns to each block, left to right: the span it states, or an equal share of the rest. */
export function placeBlocks({ rows, ...template }: UnplacedTemplate): Template {
  return { ...template, rows: rows.map(({ blocks, ...row }) => ({ ...row, cells: assignColumns(blocks) })) };
}

function assignColumns(blocks: readonly UnplacedBlock[]): readonly TemplateCell[] {
  const asked = blocks.reduce((sum, { span = 0 }) => sum + span, 0);
  let open = blocks.filter(({ span }) => span === undefined).length;
  let left = COLUMNS - asked;
  let from = 0;
  return blocks.map((block) => {
    const span = block.span ?? Math.max(1, Math.floor(left / open));
    if (block.span === undefined) {
      left -= span;
      open -= 1;
    }
    const cell = { ...block, from, span };
    from += span;
    return cell;
  });
}
