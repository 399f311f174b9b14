import { type BlockBuilder, endStages, flowed } from "../context.ts";
import { paragraph, section } from "../section.ts";
import { confidenceWords } from "../words/confidence.ts";

/** How sure we are, and of what. */
export const confidence: BlockBuilder = (context, place) => {
  const { last } = endStages(context);
  const readings = context.sides.flatMap((side) => flowed(last, side)?.readings ?? []);
  const bench = last?.stage.sets[0]?.bench;
  if (!bench || readings.length === 0) return [];
  const repeats = Math.max(...readings.map((reading) => reading.repeats));
  return section(
    place,
    "How sure we are",
    paragraph(confidenceWords(bench, repeats, context.display).join(" "), "caption"),
  );
};
