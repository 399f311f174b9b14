import type { Bench, Side } from "../../model/model.ts";
import {
  type BlockBuilder,
  type Context,
  endStages,
  flowedFigures,
  overallComparison,
  type SheetStage,
} from "../context.ts";
import { paragraph, presentItems, section } from "../section.ts";
import { stageParagraphs } from "../shared-sentences.ts";
import { formatPressure, sharedSampleWords } from "../words/conditions.ts";
import { budgetWords, confidenceWords } from "../words/confidence.ts";
import { methodWords } from "../words/method.ts";

/** How it was measured; of stages that were measured otherwise, each by name. */
export const method: BlockBuilder = (context, place) => {
  const { display, model } = context;
  const say = (bench: Bench) =>
    methodWords(bench, context.sides, {
      tested: formatPressure(bench.testPressure, display),
      reported: formatPressure(model.reference.testPressure, display),
    });
  const stages = flowedStages(context).map(({ name, bench }) => ({ name, said: say(bench) }));
  const parts =
    stages.length > 0 ? stageParagraphs(stages) : paragraph(sharedSampleWords(model.samples, say).join(" "), "caption");
  return section(place, "How it was measured", parts);
};

/** What each ± rests on; of stages for which that differs, each by name. */
export const confidence: BlockBuilder = (context, place) => {
  const isCompared = context.figures.comparisons.length > 0;
  const flowed = flowedStages(context);
  const sources = (stage: SheetStage, side: Side) => flowedFigures(stage, side)?.sources;
  const stages = flowed.map(({ name, stage, bench }) => {
    // A side that this stage did not flow says what the latest that did says, so that it is no difference.
    const sides = context.sides.flatMap((side) => {
      const found =
        sources(stage, side) ??
        flowed
          .toReversed()
          .map((one) => sources(one.stage, side))
          .find(Boolean);
      return found ? [{ side, sources: found }] : [];
    });
    return { name, said: confidenceWords(bench, sides, context.display, isCompared) };
  });
  if (stages.length === 0) return [];
  const pairs = context.sides.flatMap((side) => overallComparison(context, side) ?? []);
  return section(place, "How sure we are", stageParagraphs(stages, presentItems<string>([budgetWords(pairs)])));
};

/** The stages that were flowed, with the bench of the set that leads. */
const flowedStages = (context: Context) =>
  context.stages.flatMap((stage) => {
    const bench = stage.stage.sets[0]?.bench;
    return bench && context.sides.some((side) => flowedFigures(stage, side))
      ? [{ name: stage.name, stage, bench }]
      : [];
  });

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
