import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { BlockContent, Part } from "../sheet/content.ts";
import { assertFinite } from "./assert-finite.ts";
import { type Block, columnBlock } from "./block.ts";
import { type FlowBox, splitFlowBox } from "./flow-box.ts";
import { blanks } from "./parts/blanks.ts";
import { caution } from "./parts/caution.ts";
import { charts } from "./parts/charts.ts";
import { closingBand } from "./parts/closing-band.ts";
import { code } from "./parts/code.ts";
import { cover, coverGrowth } from "./parts/cover.ts";
import { drawings } from "./parts/drawings.ts";
import { facts } from "./parts/facts.ts";
import { factsRow } from "./parts/facts-row.ts";
import { flowPanels } from "./parts/flow-panels.ts";
import { headPlan, planGrowth } from "./parts/head-plan.ts";
import { headline } from "./parts/headline.ts";
import { hero, heroGrowth } from "./parts/hero.ts";
import { keyRow } from "./parts/key-row.ts";
import { lead } from "./parts/lead.ts";
import { masthead } from "./parts/masthead.ts";
import { picturePairs } from "./parts/picture-pairs.ts";
import { pictures } from "./parts/pictures.ts";
import { signatures } from "./parts/signatures.ts";
import { table } from "./parts/table.ts";
import { heading, list, paragraph } from "./parts/text.ts";
import { ticks } from "./parts/ticks.ts";
import { title } from "./parts/title.ts";
import { writeIn } from "./parts/write-in.ts";
import type { GrowthKind, PartContext } from "./setting.ts";
import { space } from "./type-sizes.ts";
import { findMisfits } from "./unfit.ts";

/** A typeset block, and diagnostics for what no page can hold. */
export type TypesetBlock = {
  readonly block: Block;
  readonly diagnostics: readonly Diagnostic[];
  /** What of it may grow, and by how much. */
  readonly growth: readonly Growth[];
};
type Growth = { readonly kind: GrowthKind; readonly room: number };

/** Typesets the parts of a block, one under the other. */
export function typesetBlock(content: BlockContent, ctx: Omit<PartContext, "block">): TypesetBlock {
  const boxes: FlowBox[] = [];
  const found: Diagnostic[] = [];
  content.parts.forEach((part, i) => {
    // A figure leaves room for the headings that go with it, if they leave any to it.
    const above = part.kind === "heading" ? 0 : headingsAbove(boxes);
    const pageHeight = ctx.pageHeight - (above < ctx.pageHeight / 2 ? above : 0);
    const table = captionedTable(content.parts, i);
    const captions = table === undefined ? {} : { captions: `${ctx.id}-${table}` };
    const own = typesetPart(part, { ...ctx, pageHeight, block: content.name, id: `${ctx.id}-${i}`, ...captions });
    const afterHeading = content.parts[i - 1]?.kind === "heading" && part.kind !== "heading";
    const [first, ...rest] = own;
    const spaced = first && afterHeading ? [{ ...first, gap: space.afterHeading }, ...rest] : own;
    const whole = spaced.flatMap((box) => splitFlowBox(box, ctx.pageHeight));
    found.push(...findMisfits(part, whole, own, { ...ctx, name: content.name }));
    boxes.push(...whole);
  });
  return {
    block: columnBlock(
      boxes.map((box) => assertFinite(box, content.name)),
      content.split,
    ),
    diagnostics: found,
    growth: content.parts.flatMap((part) => growthOf(part, ctx)),
  };
}

function growthOf(part: Part, ctx: Omit<PartContext, "block">): readonly Growth[] {
  if (part.kind === "hero") return [{ kind: "picture", room: heroGrowth(part, { ...ctx, block: "hero" }) }];
  if (part.kind === "cover") return [{ kind: "picture", room: coverGrowth(part, { ...ctx, block: "cover" }) }];
  if (part.kind === "head-plan") return [{ kind: "plot", room: planGrowth(part, ctx) }];
  if (!("grow" in part) || part.grow === undefined) return [];
  const [least, most] = part.grow;
  return most > least ? [{ kind: "plot", room: most - least }] : [];
}

/** The table that a heading, and the captions between them, stand over: one that has no title. */
function captionedTable(parts: readonly Part[], at: number): number | undefined {
  const isCaption = (part: Part | undefined) => part?.kind === "paragraph" && part.style === "caption";
  const part = parts[at]!;
  if (!isCaption(part) && !(part.kind === "heading" && part.level > 1)) return undefined;
  const next = parts.findIndex((other, i) => i > at && !isCaption(other));
  const table = parts[next];
  if (table?.kind === "head-plan") return next;
  const untitled = table?.kind === "write-in" || (table?.kind === "table" && table.title === undefined);
  return untitled && table.rows.length > 0 ? next : undefined;
}

/** Height of the headings that end a column so far, with the space under them. */
function headingsAbove(boxes: readonly FlowBox[]): number {
  const from = boxes.findLastIndex((box) => !box.heading) + 1;
  const heads = boxes.slice(from);
  return heads.reduce((sum, box, i) => sum + box.height + (i > 0 ? box.gap : 0), heads.length > 0 ? space.part : 0);
}

function typesetPart(part: Part, ctx: PartContext): readonly FlowBox[] {
  switch (part.kind) {
    case "masthead":
      return masthead(part, ctx);
    case "cover":
      return cover(part, ctx);
    case "closing-band":
      return closingBand(part, ctx);
    case "title":
      return title(part, ctx);
    case "hero":
      return hero(part, ctx);
    case "facts-row":
      return factsRow(part, ctx);
    case "heading":
      return heading(part, ctx);
    case "paragraph":
      return paragraph(part, ctx);
    case "list":
      return list(part, ctx);
    case "facts":
      return facts(part, ctx);
    case "table":
      return table(part, ctx);
    case "headline":
      return headline(part, ctx);
    case "charts":
      return charts(part, ctx);
    case "flow-panels":
      return flowPanels(part, ctx);
    case "lead":
      return lead(part, ctx);
    case "key-row":
      return keyRow(part, ctx);
    case "true-size":
      return drawings(part, ctx);
    case "code":
      return code(part, ctx);
    case "pictures":
      return pictures(part, ctx);
    case "picture-pairs":
      return picturePairs(part, ctx);
    case "signatures":
      return signatures(part, ctx);
    case "head-plan":
      return headPlan(part, ctx);
    case "ticks":
      return ticks(part, ctx);
    case "caution":
      return caution(part, ctx);
    case "blanks":
      return blanks(part, ctx);
    case "write-in":
      return writeIn(part, ctx);
  }
}
