import { type BlockBuilder, endStages, flowed } from "../context.ts";
import { alike } from "../samples-alike.ts";
import { paragraph, section } from "../section.ts";
import { pressure } from "../words/conditions.ts";
import { methodWords } from "../words/method.ts";

/** How it was measured. */
export const method: BlockBuilder = (context, place) => {
  const { display, model } = context;
  const { last } = endStages(context);
  const heads = last && context.sides.some((side) => flowed(last, side)) ? [last] : model.samples;
  const words = alike(heads, (bench) =>
    methodWords(bench, context.sides, {
      tested: pressure(bench.testPressure, display),
      reported: pressure(model.reference.testPressure, display),
    }),
  );
  return section(place, "How it was measured", paragraph(words.join(" "), "caption"));
};
