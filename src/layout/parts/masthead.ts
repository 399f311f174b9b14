import type { Masthead } from "../../sheet/content.ts";
import type { Placed } from "../page.ts";
import { ruleAt, textAt, textBox } from "../set-text.ts";
import type { Setting } from "../setting.ts";
import type { Slab } from "../slab.ts";
import { types } from "../type-sizes.ts";

const logoBox = { width: 120, height: 42, gap: 12 };
const underRule = 7;

/** The shop: logo, name and strapline at the left, where to find it at the right, a rule below. */
export function masthead(part: Masthead, set: Setting): readonly Slab[] {
  const lineWidths = part.lines.map((line) => set.measure.width(line.text, types.caption.weight, types.caption.size));
  const right = Math.min(Math.max(0, ...lineWidths), set.width * 0.45);
  const logo = part.logo && placeLogo(part.logo, set);
  const left = logo ? logo.width + logoBox.gap : 0;
  const nameWidth = set.width - left - right - (right > 0 ? logoBox.gap : 0);

  const id = `${set.id}-name`;
  const name = textBox(
    [{ text: part.name, weight: "bold" }],
    { x: left, y: 0, width: nameWidth },
    types.title,
    { color: set.colors.accent, tag: { kind: "paragraph", id } },
    set,
  );
  const strapline = textBox(
    [{ text: part.strapline ?? "", weight: "regular" }],
    { x: left, y: name.height + 1, width: nameWidth },
    types.caption,
    { color: set.colors.quiet, tag: { kind: "paragraph", id: `${set.id}-strapline` } },
    set,
  );
  const lines: Placed[] = [];
  let y = 2;
  part.lines.forEach((line, i) => {
    const ink = {
      color: set.colors.quiet,
      tag: { kind: "paragraph", id: `${set.id}-line${i}` } as const,
      link: line.link,
    };
    const width = lineWidths[i]!;
    if (width <= right) {
      lines.push(textAt(line.text, set.width - width, y, types.caption, ink, set));
      y += types.caption.lead;
    } else {
      const box = { x: set.width - right, y, width: right };
      const wrapped = textBox([{ text: line.text, weight: "regular" }], box, types.caption, ink, set);
      lines.push(...wrapped.items);
      y += wrapped.height;
    }
  });

  const height = Math.max(name.height + 1 + strapline.height, y, logo?.height ?? 0) + underRule;
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
  const scale = Math.min(logoBox.width / size.width, logoBox.height / size.height);
  const [width, height] = [size.width * scale, size.height * scale];
  const tag = { kind: "figure", id: `${set.id}-logo`, alt: logo.alt } as const;
  const item: Placed = { kind: "image", x: 0, y: 0, width, height, image: logo.image, tag, block: set.block };
  return { width, height, item };
}
