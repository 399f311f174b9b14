import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { Figures } from "../figures/figures.ts";
import type { Model } from "../model/model.ts";
import type { Theme } from "../theme/theme.ts";
import { titleSaysDraft } from "./blocks/masthead.ts";
import { BLOCKS } from "./blocks.ts";
import type { BlockContent, Furniture, Part, Sheet, SheetCell, SheetRow } from "./content.ts";
import type { Context } from "./context.ts";
import { contextsOfHeads } from "./contexts-of-heads.ts";
import { createContext } from "./make-context.ts";
import { isPhone } from "./phone.ts";
import { presentItems } from "./section.ts";
import type { Template, TemplateCell, TemplateRow } from "./template.ts";
import { findWithheldWords } from "./withheld.ts";
import { dateWords } from "./words/dates.ts";

/** Builds a sheet's content in display units and final words, in the order and places of a template. */
export function buildSheet(input: {
  model: Model;
  figures: Figures;
  /** Short mark of the figures shown. */
  mark: string;
  template: Template;
  theme: Theme;
}): {
  sheet: Sheet;
  diagnostics: readonly Diagnostic[];
} {
  const { model, template, theme } = input;
  const rows = addCautions(template);
  const context = createContext({ ...input, blocks: blockNames(rows) });
  const { identity, shop } = model;
  const product = identity.kind === "product";
  const sheet: Sheet = {
    template: template.name,
    documentTitle: `${product ? "Product sheet" : "Cylinder head sheet"} ${identity.number}, ${identity.title}`,
    ...(shop.name ? { author: shop.name } : {}),
    subject: product ? "Cylinder head product, as measured" : "Cylinder head, work and measurements",
    identifier: context.identifier,
    language: "en",
    issued: identity.issued,
    theme,
    furniture: buildFurniture(context),
    rows: template.perHead ? rowsPerHead(context, rows) : buildRows(context, rows, template.onePage),
    onePage: template.onePage,
    ...(template.onePage ? { more: "More on the full sheet." } : {}),
  };
  return { sheet, diagnostics: [...findUnknownBlocks(template), ...findWithheldWords(model.text, context.withheld)] };
}

/** Every row once for each head, each head on pages of its own. */
const rowsPerHead = (context: Context, rows: readonly TemplateRow[]): readonly SheetRow[] =>
  contextsOfHeads(context).flatMap((own, head) =>
    buildRows(own, rows, false).map((row, i) => (head > 0 && i === 0 ? { ...row, newPage: true, fresh: true } : row)),
  );

/** Text on every page that identifies the part. */
function buildFurniture(context: Context): Furniture {
  const { identity, shop, text } = context.model;
  const narrow = isPhone(context);
  const draft = identity.draft ? " · draft" : "";
  const number = `${identity.number} · revision ${identity.revision}${draft}`;
  const stamped = text.heads.length > 1 ? undefined : (text.head.stamped ?? text.heads[0]?.stamped);
  const head: NonNullable<Furniture["head"]> = {
    name: presentItems<string>([identity.title, stamped]).join(", "),
    ...(shop.name ? { aside: shop.name } : {}),
    ...(identity.draft ? { draft: true } : {}),
  };
  return {
    left: narrow ? number : `${number} · ${heldSince({ identity, text })}`,
    ...(identity.kind === "job"
      ? { middle: context.model.firstHead ? "about the heads named here only" : "about the part named here only" }
      : {}),
    ...(narrow ? {} : { head }),
    ...(identity.draft && !titleSaysDraft(context) ? { banner: "DRAFT" } : {}),
  };
}

/** When a sheet was issued, or from when a product's page holds. */
const heldSince = ({ identity, text: { product } }: Pick<Model, "identity" | "text">) =>
  product?.validFrom === undefined
    ? `issued ${dateWords(identity.issued)}`
    : `valid from ${dateWords(product.validFrom)}`;

function buildRows(context: Context, rows: readonly TemplateRow[], onePage: boolean): readonly SheetRow[] {
  let page = 1;
  let fresh = false;
  return rows.flatMap((row, i): SheetRow[] => {
    // A page break holds even where the row that states it is empty.
    if (row.newPage && i > 0 && !onePage) {
      page += 1;
      fresh = true;
    }
    const cells = row.cells.flatMap((cell): SheetCell[] => {
      const kind = BLOCKS[cell.block];
      const parts = kind?.build(context, { page, onePage, cell }) ?? [];
      if (!kind || parts.length === 0) return [];
      const block: BlockContent = {
        ...placing(cell),
        name: cell.block,
        parts: cell.grow ? growCharts(parts, cell.grow) : parts,
        split: cell.split ?? kind.split,
        priority: cell.priority ?? kind.priority,
      };
      return [{ block, from: cell.from, span: cell.span }];
    });
    if (cells.length === 0) return [];
    const newPage = fresh;
    fresh = false;
    const wide = cells.some(({ block }) => BLOCKS[block.name]?.wide?.(context));
    const rows = wide ? cells.map((cell) => [{ ...cell, from: 0, span: 6 }]) : [cells];
    const asked = wide || cells.length === row.cells.length ? {} : { asked: row.cells.length };
    const turn = { ...(newPage ? { newPage } : {}), ...(row.pullUp ? { pullUp: true } : {}) };
    return rows.map((shared, n) => ({ cells: shared, ...asked, ...(n === 0 ? turn : {}) }));
  });
}

/** What a template says of a block's place on an over-full page, or beside another block. */
function placing({ optional, gives, goes_on, overleaf, ...cell }: TemplateCell): Partial<BlockContent> {
  return {
    ...(optional ? { optional } : {}),
    ...(gives === undefined ? {} : { gives }),
    ...(goes_on ? { goesOn: true } : {}),
    ...(overleaf === undefined ? {} : { overleaf }),
    ...(cell.with === undefined ? {} : { with: cell.with }),
    ...(cell.without === undefined ? {} : { without: cell.without }),
  };
}

const growCharts = (parts: readonly Part[], [least = 0, most = least]: readonly number[]): readonly Part[] =>
  parts.map((part) =>
    part.kind === "charts" || part.kind === "flow-panels" ? { ...part, height: least, grow: [least, most] } : part,
  );

/** A template may place the cautions; it cannot leave them out. */
function addCautions(template: Template): readonly TemplateRow[] {
  if (blockNames(template.rows).includes("cautions")) return template.rows;
  return [...template.rows, { cells: [{ block: "cautions", from: 0, span: 6 }], newPage: false }];
}

function findUnknownBlocks(template: Template): readonly Diagnostic[] {
  const names = blockNames(template.rows).filter((name) => !BLOCKS[name]);
  return [...new Set(names)].map((name) => ({
    severity: "warning",
    code: "sheet/unknown-block",
    message: `template \`${template.name}\` asks for \`${name}\`, which is no block`,
  }));
}

const blockNames = (rows: readonly TemplateRow[]): readonly string[] =>
  rows.flatMap(({ cells }) => cells.map(({ block }) => block));
