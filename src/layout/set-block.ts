import type { BlockContent, Part } from "../sheet/content.ts";
import { type Block, column } from "./block.ts";
import { checked } from "./checked.ts";
import { blanks } from "./parts/blanks.ts";
import { caution } from "./parts/caution.ts";
import { charts, picture } from "./parts/charts.ts";
import { code } from "./parts/code.ts";
import { facts } from "./parts/facts.ts";
import { heading } from "./parts/heading.ts";
import { headline } from "./parts/headline.ts";
import { masthead } from "./parts/masthead.ts";
import { list, paragraph } from "./parts/paragraph.ts";
import { signatures } from "./parts/signatures.ts";
import { table } from "./parts/table.ts";
import { writeIn } from "./parts/write-in.ts";
import type { Setting } from "./setting.ts";
import { cutToFit, type Slab } from "./slab.ts";
import { space } from "./type-sizes.ts";

/** Sets every part of a block, one under the other, in the width it has. */
export function setBlock(content: BlockContent, set: Omit<Setting, "block">): Block {
  const slabs: Slab[] = [];
  content.parts.forEach((part, i) => {
    const own = setPart(part, { ...set, block: content.name, id: `${set.id}-${i}` });
    const afterHeading = content.parts[i - 1]?.kind === "heading" && part.kind !== "heading";
    slabs.push(
      ...(afterHeading ? [{ ...own[0]!, gap: space.afterHeading }, ...own.slice(1)].slice(0, own.length) : own),
    );
  });
  const whole = slabs.flatMap((slab) => cutToFit(slab, set.pageHeight));
  return column(
    whole.map((slab) => checked(slab, content.name)),
    content.split,
  );
}

function setPart(part: Part, set: Setting): readonly Slab[] {
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
    case "picture":
      return picture(part, set);
    case "code":
      return code(part, set);
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
