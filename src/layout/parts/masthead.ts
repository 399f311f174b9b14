import type { Masthead } from "../../sheet/content.ts";
import type { FlowBox } from "../flow-box.ts";
import type { Placed } from "../page.ts";
import { ruleAt, textAt, textBox } from "../set-text.ts";
import type { Setting } from "../setting.ts";
import { types } from "../type-sizes.ts";

const logoBox = { width: 120, height: 42, gap: 12 };
const underRule = 7;
/** A name is not squeezed into less: what stands beside it goes under it. */
const leastName = 110;

/** The shop: logo, name and strapline at the left, where to find it at the right, a rule below; in a narrow cell one under the other. */
export function masthead(part: Masthead, set: Setting): readonly FlowBox[] {
  const lineWidths = part.lines.map((line) => set.measure.width(line.text, types.caption.weight, types.caption.size));
  const logo = part.logo && placeLogo(part.logo, set);
  const widest = Math.max(0, ...lineWidths);
  const beside = { left: logo ? logo.width + logoBox.gap : 0, right: Math.min(widest, set.width * 0.45) };
  const roomy = set.width - beside.left - beside.right - (beside.right > 0 ? logoBox.gap : 0) >= leastName;
  const stacked = { left: 0, right: Math.min(widest, set.width) };
  const { left, right } = roomy ? beside : stacked;
  const nameWidth = roomy ? set.width - left - right - (right > 0 ? logoBox.gap : 0) : set.width;
  const start = roomy || !logo ? 0 : logo.height + 4;

  const id = `${set.id}-name`;
  const name = textBox(
    [{ text: part.name, weight: "bold" }],
    { x: left, y: start, width: nameWidth },
    types.title,
    { color: set.colors.accent, tag: { kind: "paragraph", id } },
    set,
  );
  const strapline = textBox(
    [{ text: part.strapline ?? "", weight: "regular" }],
    { x: left, y: start + name.height + 1, width: nameWidth },
    types.caption,
    { color: set.colors.quiet, tag: { kind: "paragraph", id: `${set.id}-strapline` } },
    set,
  );
  const lines: Placed[] = [];
  const nameEnd = start + name.height + 1 + strapline.height;
  let y = roomy ? 2 : nameEnd + 2;
  part.lines.forEach((line, i) => {
    const ink = {
      color: set.colors.quiet,
      tag: { kind: "paragraph", id: `${set.id}-line${i}` } as const,
      link: line.link,
    };
    const width = lineWidths[i]!;
    if (width <= right) {
      lines.push(textAt(line.text, roomy ? set.width - width : 0, y, types.caption, ink, set));
      y += types.caption.lead;
    } else {
      const box = { x: roomy ? set.width - right : 0, y, width: right };
      const wrapped = textBox([{ text: line.text, weight: "regular" }], box, types.caption, ink, set);
      lines.push(...wrapped.items);
      y += wrapped.height;
    }
  });

  const height = Math.max(nameEnd, y, logo?.height ?? 0) + underRule;
  return [
    {
      height: height + 1,
      items: [
        ...(logo ? [logo.item] : []),
        ...name.items,
        ...strapline.items,
        ...lines,
        ruleAt(height, 0, set.width, 1, set.colors.accent, set),
      ],
      gap: 0,
      tie: false,
    },
  ];
}

function placeLogo(logo: NonNullable<Masthead["logo"]>, set: Setting) {
  const size = set.images.get(logo.image);
  if (size === undefined) throw new Error(`block "${set.block}": no picture named ${logo.image} was given to layout`);
  const scale = Math.min(Math.min(logoBox.width, set.width) / size.width, logoBox.height / size.height);
  const [width, height] = [size.width * scale, size.height * scale];
  const tag = { kind: "figure", id: `${set.id}-logo`, alt: logo.alt } as const;
  const item: Placed = { kind: "image", x: 0, y: 0, width, height, image: logo.image, tag, block: set.block };
  return { width, height, item };
}
