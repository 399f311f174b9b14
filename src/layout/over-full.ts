import type { BlockContent, Part } from "../sheet/content.ts";
import { grid } from "./type-sizes.ts";
import type { Cell, FlowedPage, Row, Typesetter } from "./typeset-rows.ts";

/** One page, and the rows that go on at the head of the next. */
type Split = {
  readonly kept: readonly Row[];
  readonly pages: readonly FlowedPage[];
  readonly carried: readonly Row[];
};

/**
 * Makes one page of rows that need more: the end of the block that may go on goes over, then whole rows in the order in which
 * they may. Undefined where even that does not do.
 */
export function splitOverFull(rows: readonly Row[], flow: Typesetter["flow"]): Split | undefined {
  const orders = [...new Set(rows.flatMap(({ cells }) => cells.flatMap(({ block }) => block.overleaf ?? [])))];
  orders.sort((a, b) => a - b);
  for (const last of [Number.NEGATIVE_INFINITY, ...orders]) {
    const goesOver = ({ block }: Cell) => block.overleaf !== undefined && block.overleaf <= last;
    const staying = rows.filter(({ cells }) => !cells.some(goesOver));
    const over = rows.filter(({ cells }) => cells.some(goesOver));
    // What would go over whole is too much for a page by itself.
    if (staying.every(({ cells }) => cells.length === 0)) return undefined;
    const whole = flow(staying);
    if (over.length > 0 && whole.length === 1) return { kept: staying, pages: whole, carried: over };
    const divided = divideOne(staying, flow);
    if (divided) return { ...divided, carried: [...divided.carried, ...over] };
  }
  return undefined;
}

/** Keeps as much of the block that may go on as one page holds; the rest takes a row of its own. */
function divideOne(rows: readonly Row[], flow: Typesetter["flow"]): Split | undefined {
  const cell = rows.flatMap(({ cells }) => cells).find(({ block }) => block.goesOn);
  if (!cell) return undefined;
  const count = countUnits(cell.block.parts);
  for (let units = count - 1; units >= 1; units--) {
    const [head, rest] = divideBlock(cell.block, units);
    const shorter: Cell = { ...cell, id: `${cell.id}k${units}`, block: head };
    const kept = rows.map((row) => ({ ...row, cells: row.cells.map((one) => (one === cell ? shorter : one)) }));
    const pages = flow(kept);
    if (pages.length > 1) continue;
    const over: Cell = { id: `${cell.id}o${units}`, block: rest, from: 0, span: grid.columns };
    return { kept, pages, carried: [{ cells: [over], asked: 1, newPage: false, pullUp: false }] };
  }
  return undefined;
}

/** Pieces that a block may be divided between: an item of a list, a row of facts, any other part; headings count with what follows. */
const unitsOf = (part: Part): number =>
  part.kind === "heading" ? 0 : part.kind === "list" ? part.items.length : part.kind === "facts" ? part.rows.length : 1;

const countUnits = (parts: readonly Part[]) => parts.reduce((sum, part) => sum + unitsOf(part), 0);

/** The first `units` pieces of a block, and the rest under its heading. */
function divideBlock(block: BlockContent, units: number): readonly [head: BlockContent, rest: BlockContent] {
  const head: Part[] = [];
  const rest: Part[] = [];
  const continued = block.parts.find((part) => part.kind === "heading");
  if (continued) rest.push({ ...continued, text: `${continued.text} (continued)` });
  let left = units;
  let title: Part | undefined;
  for (const part of block.parts) {
    if (part.kind === "heading") {
      title = part;
      continue;
    }
    const [here, there] = dividePart(part, left);
    left -= here ? unitsOf(here) : 0;
    if (here) head.push(...(title ? [title] : []), here);
    // A heading goes with what it heads; the first stands over the rest already.
    else if (title && title !== continued) rest.push(title);
    if (there) rest.push(there);
    title = undefined;
  }
  return [
    { ...block, parts: head },
    { ...block, parts: rest, goesOn: false },
  ];
}

/** The first `units` pieces of a part, and the rest. */
function dividePart(part: Part, units: number): readonly [Part | undefined, Part | undefined] {
  const own = unitsOf(part);
  if (units <= 0) return [undefined, part];
  if (units >= own) return [part, undefined];
  if (part.kind === "list")
    return [
      { ...part, items: part.items.slice(0, units) },
      { ...part, items: part.items.slice(units) },
    ];
  if (part.kind === "facts")
    return [
      { ...part, rows: part.rows.slice(0, units) },
      { ...part, rows: part.rows.slice(units) },
    ];
  return [part, undefined];
}
