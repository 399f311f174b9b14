import { type BlockBuilder, endStages, flowedFigures, overallComparison } from "../context.ts";
import { paragraph, presentItems, section } from "../section.ts";
import { formatPressure, sharedSampleWords } from "../words/conditions.ts";
import { budgetWords, confidenceWords } from "../words/confidence.ts";
import { methodWords } from "../words/method.ts";

/** How it was measured. */
export const method: BlockBuilder = (context, place) => {
  const { display, model } = context;
  const { last } = endStages(context);
  const heads = last && context.sides.some((side) => flowedFigures(last, side)) ? [last] : model.samples;
  const words = sharedSampleWords(heads, (bench) =>
    methodWords(bench, context.sides, {
      tested: formatPressure(bench.testPressure, display),
      reported: formatPressure(model.reference.testPressure, display),
    }),
  );
  return section(place, "How it was measured", paragraph(words.join(" "), "caption"));
};

/** What each ± rests on. */
export const confidence: BlockBuilder = (context, place) => {
  const { last } = endStages(context);
  const sides = context.sides.flatMap((side) => {
    const figures = flowedFigures(last, side);
    return figures ? [{ side, sources: figures.sources }] : [];
  });
  const bench = last?.stage.sets[0]?.bench;
  if (!bench || sides.length === 0) return [];
  const pairs = context.sides.flatMap((side) => overallComparison(context, side) ?? []);
  const isCompared = context.figures.comparisons.length > 0;
  const words = presentItems<string>([
    ...confidenceWords(bench, sides, context.display, isCompared),
    budgetWords(pairs),
  ]);
  return section(place, "How sure we are", paragraph(words.join(" "), "caption"));
};

type Word = { readonly lead: string; readonly text: string };

/** Explains the terms of this sheet. */
export const howToRead: BlockBuilder = (context, place) => {
  const { last, first } = endStages(context);
  const flow = context.sides.some((side) => flowedFigures(last, side)) || context.figures.sample !== undefined;
  if (!flow) return [];
  const pinch = !context.withheld.pinch && context.sides.some((side) => last?.stage.ports[side]?.pinch);
  const words = presentItems<Word>([
    { lead: "Lift:", text: "how far the valve is open. Net lift is what the valve really gets." },
    { lead: "Flow:", text: `air through the port in ${context.display.unit("flow")}, at a fixed pressure.` },
    first && { lead: "Clear gain, clear loss:", text: "the change is larger than its ±." },
    first && { lead: "Within repeatability:", text: "no change is claimed." },
    first && { lead: "Too few repeats, not judged:", text: "we did not measure often enough." },
    { lead: "Lift ÷ diameter:", text: "lift as share of the valve's diameter, to compare valves of unlike size." },
    pinch && { lead: "Pinch:", text: "the smallest section of the port." },
  ]);
  return section(place, "How to read this sheet", [{ kind: "list", compact: true, items: words }]);
};
