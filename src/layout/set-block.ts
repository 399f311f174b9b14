import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { BlockContent, Part } from "../sheet/content.ts";
import { type Block, column } from "./block.ts";
import { checked } from "./checked.ts";
import { type FlowBox, splitFlowBox } from "./flow-box.ts";
import { blanks } from "./parts/blanks.ts";
import { caution } from "./parts/caution.ts";
import { charts } from "./parts/charts.ts";
import { code } from "./parts/code.ts";
import { drawings } from "./parts/drawings.ts";
import { facts } from "./parts/facts.ts";
import { heading } from "./parts/heading.ts";
import { headline } from "./parts/headline.ts";
import { masthead } from "./parts/masthead.ts";
import { list, paragraph } from "./parts/paragraph.ts";
import { pictures } from "./parts/pictures.ts";
import { signatures } from "./parts/signatures.ts";
import { table } from "./parts/table.ts";
import { writeIn } from "./parts/write-in.ts";
import type { Setting } from "./setting.ts";
import { space } from "./type-sizes.ts";
import { unfit } from "./unfit.ts";

/** A block ready to be placed, and what of it no page can hold. */
export type SetBlock = { readonly block: Block; readonly diagnostics: readonly Diagnostic[] };

/** Sets every part of a block, one under the other, in the width it has. */
export function setBlock(content: BlockContent, set: Omit<Setting, "block">): SetBlock {
  const slabs: FlowBox[] = [];
  const found: Diagnostic[] = [];
  content.parts.forEach((part, i) => {
    // A figure leaves room for the headings that go with it, if they leave any to it.
    const above = part.kind === "heading" ? 0 : headingsAbove(slabs);
    const pageHeight = set.pageHeight - (above < set.pageHeight / 2 ? above : 0);
    const own = setPart(part, { ...set, pageHeight, block: content.name, id: `${set.id}-${i}` });
    const afterHeading = content.parts[i - 1]?.kind === "heading" && part.kind !== "heading";
    const [first, ...rest] = own;
    const spaced = first && afterHeading ? [{ ...first, gap: space.afterHeading }, ...rest] : own;
    const whole = spaced.flatMap((slab) => splitFlowBox(slab, set.pageHeight));
    found.push(...unfit(part, whole, own, { ...set, name: content.name }));
    slabs.push(...whole);
  });
  return {
    block: column(
      slabs.map((slab) => checked(slab, content.name)),
      content.split,
    ),
    diagnostics: found,
  };
}

/** Height of the headings that end a column so far, with the space under them. */
function headingsAbove(slabs: readonly FlowBox[]): number {
  const from = slabs.findLastIndex((slab) => !slab.heading) + 1;
  const heads = slabs.slice(from);
  return heads.reduce((sum, slab, i) => sum + slab.height + (i > 0 ? slab.gap : 0), heads.length > 0 ? space.part : 0);
}

function setPart(part: Part, set: Setting): readonly FlowBox[] {
  switch (part.kind) {
    case "masthead":
      return masthead(part, set);
    case "heading":
      return heading(part, set);
    case "paragraph":
      return paragraph(part, set);
    case "list":
      return list(part, set);
    case "facts":
      return facts(part, set);
    case "table":
      return table(part, set);
    case "headline":
      return headline(part, set);
    case "charts":
      return charts(part, set);
    case "true-size":
      return drawings(part, set);
    case "code":
      return code(part, set);
    case "pictures":
      return pictures(part, set);
    case "signatures":
      return signatures(part, set);
    case "caution":
      return caution(part, set);
    case "blanks":
      return blanks(part, set);
    case "write-in":
      return writeIn(part, set);
  }
}
