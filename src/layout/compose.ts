import { leftAfterGrowth } from "./grow.ts";
import { splitOverFull } from "./over-full.ts";
import type { Cell, FlowedPage, Row, SetRow, Typesetter } from "./typeset-rows.ts";

/** Pages of a sheet, and all rows on them. */
export type Composition = { readonly pages: readonly FlowedPage[]; readonly rows: readonly SetRow[] };

/** Pages of rows that begin a page. */
type Flow = Typesetter["flow"];

/** Rows that begin on a page of their own, up to the next that do. */
type Group = readonly Row[];

/** What is left on a page is worth pulling a block up only beyond this [pt]. */
const WORTH_PULLING = 24;
/** A last page less full than this is avoided where the pages before can hold it. */
const LEAST_LAST = 0.55;

/** Composes a sheet of several pages: which blocks stand, on which page, at their least heights. */
export function composePages(rows: readonly Row[], setter: Typesetter): Composition {
  const composed = composeGroups(splitGroups(rows), setter);
  const joined = joinLast(splitGroups(rows), composed, setter);
  return joined ?? composed;
}

function splitGroups(rows: readonly Row[]): readonly Group[] {
  const groups: Row[][] = [];
  for (const row of rows) {
    const open = groups.at(-1);
    if (open === undefined || row.newPage) groups.push([row]);
    else open.push(row);
  }
  return groups;
}

function composeGroups(groups: readonly Group[], setter: Typesetter): Composition {
  const pages: FlowedPage[] = [];
  let carried: readonly Row[] = [];
  let standing = namesOf(groups.flat());
  const queue = [...groups];
  for (let group = queue.shift(); group !== undefined || carried.length > 0; group = queue.shift()) {
    // What goes over does not stand over another head: it has a page of its own.
    if (group !== undefined && carried.length > 0 && group[0]!.fresh) {
      queue.unshift(group);
      group = undefined;
    }
    const first = pages.length === 0;
    const flow = first ? setter.flow : setter.flowLater;
    const own = composeGroup([...carried, ...(group ?? [])], { standing, first }, flow);
    const pulled = pullUp(own, queue, standing, flow);
    standing = new Set([...standing].filter((name) => !pulled.gave.has(name)));
    pages.push(...pulled.pages);
    carried = pulled.carried;
  }
  const all = pages.length > 0 ? pages : setter.flow([]);
  return { pages: all, rows: [...new Set(all.flatMap(({ set }) => set))] };
}

type ComposedGroup = {
  readonly rows: readonly Row[];
  readonly pages: readonly FlowedPage[];
  /** Names of blocks that gave way. */
  readonly gave: ReadonlySet<string>;
  /** Rows for the head of the next page. */
  readonly carried: readonly Row[];
};

/** `standing`: names of the blocks that have not given way before. */
type GroupPlace = { readonly standing: ReadonlySet<string>; readonly first: boolean };

/** Lets blocks give way, the cheapest first, until one page holds the group; then adds the optional ones that need no further page. */
function composeGroup(rows: readonly Row[], { standing, first }: GroupPlace, flow: Flow): ComposedGroup {
  const orders = [...new Set(cellsOf(rows).flatMap(({ block }) => block.gives ?? []))].sort((a, b) => a - b);
  const stages = [Number.NEGATIVE_INFINITY, ...orders].map((given) => {
    const gives = ({ block }: Cell) => block.gives !== undefined && block.gives <= given;
    const gave = new Set(
      cellsOf(rows)
        .filter(gives)
        .map(({ block }) => block.name),
    );
    const left = filterCells(rows, (cell) => !gives(cell));
    return { gave, rows: keepAllowed(left, new Set([...standing].filter((name) => !gave.has(name)))) };
  });
  for (const stage of stages) {
    const must = filterCells(stage.rows, ({ block }) => !block.optional);
    const pages = flowSome(must, flow);
    if (pages.length > 1 && stage !== stages.at(-1)) continue;
    const split = pages.length > 1 ? splitOverFull(must, flow) : undefined;
    if (split) return { rows: split.kept, pages: split.pages, gave: stage.gave, carried: split.carried };
    return { ...addOptional(stage.rows, must, pages, first, flow), gave: stage.gave, carried: [] };
  }
  throw new Error("a group has at least one stage");
}

/** Adds optional blocks, earlier ones first, where they need no further page. */
function addOptional(
  rows: readonly Row[],
  must: readonly Row[],
  flowed: readonly FlowedPage[],
  first: boolean,
  flow: Flow,
) {
  let kept = new Set(cellsOf(must).map(({ id }) => id));
  let pages = flowed;
  const most = Math.max(pages.length, first ? 1 : 0);
  for (const { block, id } of cellsOf(rows)) {
    if (!block.optional) continue;
    const more = new Set([...kept, id]);
    const longer = flowSome(
      filterCells(rows, (cell) => more.has(cell.id)),
      flow,
    );
    if (longer.length <= most) [kept, pages] = [more, longer];
  }
  return { rows: filterCells(rows, ({ id }) => kept.has(id)), pages };
}

/** Rows that may be pulled up come to a page with room for them, while there are any. Takes them off the queue. */
function pullUp(group: ComposedGroup, queue: Group[], standing: ReadonlySet<string>, flow: Flow): ComposedGroup {
  let composed = group;
  while (composed.carried.length === 0) {
    const [next] = queue;
    const row = next?.[0];
    const last = composed.pages.at(-1);
    if (!next || !row?.pullUp || !last || leftAfterGrowth(last) <= WORTH_PULLING) return composed;
    const rows = [...composed.rows, ...keepAllowed([row], standing)];
    const pages = flowSome(rows, flow);
    if (pages.length > composed.pages.length) return composed;
    composed = { ...composed, rows, pages };
    const rest = next.slice(1);
    if (rest.length > 0) queue[0] = rest;
    else queue.shift();
  }
  return composed;
}

/** Does without the last page break where the last page would be nearly empty and the pages before can hold it. */
function joinLast(groups: readonly Group[], composed: Composition, setter: Typesetter): Composition | undefined {
  const last = composed.pages.at(-1);
  if (groups.length < 2 || !last || leftAfterGrowth(last) <= (1 - LEAST_LAST) * last.room) return undefined;
  const joined = composeGroups([...groups.slice(0, -2), groups.slice(-2).flat()], setter);
  return joined.pages.length < composed.pages.length ? joined : undefined;
}

const flowSome = (rows: readonly Row[], flow: Flow): readonly FlowedPage[] =>
  cellsOf(rows).length === 0 ? [] : flow(rows);

export const cellsOf = (rows: readonly Row[]): readonly Cell[] => rows.flatMap(({ cells }) => cells);

export const filterCells = (rows: readonly Row[], keeps: (cell: Cell) => boolean): readonly Row[] =>
  rows.map((row) => ({ ...row, cells: row.cells.filter(keeps) }));

const namesOf = (rows: readonly Row[]): ReadonlySet<string> => new Set(cellsOf(rows).map(({ block }) => block.name));

/** Leaves out what stands only with, or only without, another block. */
const keepAllowed = (rows: readonly Row[], standing: ReadonlySet<string>) =>
  filterCells(
    rows,
    ({ block }) =>
      (block.without === undefined || !standing.has(block.without)) &&
      (block.with === undefined || standing.has(block.with)),
  );
