import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { Sheet } from "../sheet/content.ts";
import { type Composition, cellsOf, filterCells } from "./compose.ts";
import { grid } from "./type-sizes.ts";
import type { Row, Typesetter } from "./typeset-rows.ts";

/**
 * Keeps what fits one page, the highest priority first, earlier blocks before later ones. A block that is too large gives
 * way, and a smaller one after it may still have its place. Optional blocks come last, each where there is still room.
 */
export function composeOnePage(
  rows: readonly Row[],
  { template, more }: Pick<Sheet, "template" | "more">,
  setter: Typesetter,
): Composition & { readonly diagnostics: readonly Diagnostic[] } {
  const all = cellsOf(rows);
  const cells = all.filter(({ block }) => !block.optional);
  const after = more === undefined ? undefined : continuationRow(more);
  // The sentence `more`, that another sheet has the rest, stands only where a block was left out.
  const rowsOf = (kept: ReadonlySet<string>) => [
    ...filterCells(rows, ({ id }) => kept.has(id)),
    ...(after && cells.some(({ id }) => !kept.has(id)) ? [after] : []),
  ];
  const flowOf = (kept: ReadonlySet<string>) => setter.flow(rowsOf(kept));
  let kept = new Set(cells.map(({ id }) => id));
  let pages = flowOf(kept);
  if (pages.length > 1) {
    kept = new Set(cells.flatMap(({ id, block }) => (block.priority >= 100 ? [id] : [])));
    pages = flowOf(kept);
    for (const cell of cells.toSorted((a, b) => b.block.priority - a.block.priority)) {
      if (kept.has(cell.id)) continue;
      const wider = new Set([...kept, cell.id]);
      const longer = flowOf(wider);
      if (longer.length <= 1) [kept, pages] = [wider, longer];
    }
  }
  for (const { id, block } of all.filter((cell) => cell.block.optional)) {
    const beside = cells.find((cell) => cell.block.name === block.with);
    if (block.with !== undefined && (!beside || !kept.has(beside.id))) continue;
    const wider = new Set([...kept, id]);
    const longer = flowOf(wider);
    if (longer.length <= 1 && pages.length <= 1) [kept, pages] = [wider, longer];
  }
  const diagnostics: Diagnostic[] = cells
    .filter(({ id }) => !kept.has(id))
    .map(({ block }) => ({
      severity: "warning",
      code: "layout/left-out",
      message: `block ${block.name} does not fit the one page of the ${template} and was left out`,
      block: block.name,
      hint: "give it a higher priority in the template, or shorten another block",
    }));
  if (pages.length > 1)
    diagnostics.push({
      severity: "warning",
      code: "layout/one-page",
      message: `what must stay on the ${template} takes ${pages.length} pages`,
      note: "nothing more could be left out",
    });
  return { pages, rows: pages[0]?.set ?? [], diagnostics };
}

function continuationRow(text: string): Row {
  const parts = [{ kind: "paragraph", style: "quiet", text }] as const;
  const block = { name: "more", parts, split: false, priority: 100 };
  return { cells: [{ id: "more", block, from: 0, span: grid.columns }], asked: 1, newPage: false, pullUp: false };
}
