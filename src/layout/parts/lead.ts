import type { Lead } from "../../sheet/content.ts";
import type { FlowBox } from "../flow-box.ts";
import { lineAt, lineBoxes } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { space, types } from "../type-sizes.ts";
import { type Phrase, type WrappedLine, wrap } from "../wrap.ts";

/** Fewest words of a last line; with fewer the lines are set narrower. */
const LEAST_WORDS = 3;
/** Narrowest setting of a sentence, as a share of the width, and the step towards it. */
const NARROWEST = 0.7;
const STEP = 0.02;

/** The one sentence of a page, its ± in quiet regular; its last line has three words or more. */
export function lead(part: Lead, ctx: PartContext): readonly FlowBox[] {
  const type = types.opening;
  const phrases = part.phrases.map(({ text, quiet }): Phrase => ({ text, weight: quiet ? "regular" : type.weight }));
  const lines = balancedLines(phrases, type.size, ctx);
  const ink = { color: ctx.colors.ink, tag: { kind: "paragraph", id: ctx.id } } as const;
  const items = lines.map((line) =>
    lineAt(line, 0, 0, type, ink, ctx).map((item) =>
      item.weight === "regular" ? { ...item, color: ctx.colors.quiet } : item,
    ),
  );
  return lineBoxes(items, type.lead, space.part);
}

function balancedLines(
  phrases: readonly Phrase[],
  size: number,
  { width, measure }: PartContext,
): readonly WrappedLine[] {
  const full = wrap(phrases, size, width, measure);
  for (let share = 1; share >= NARROWEST; share -= STEP) {
    const lines = wrap(phrases, size, width * share, measure);
    if (lines.length > full.length) break;
    if (lines.length === 1 || wordCount(lines.at(-1)!) >= LEAST_WORDS) return lines;
  }
  return full;
}

const wordCount = ({ pieces }: WrappedLine) =>
  pieces.flatMap(({ text }) => text.split(" ")).filter((word) => word !== "").length;
