import { type BlockBuilder, camLift, endStages, flowedFigures, overallComparison } from "../context.ts";
import { isBeyondLift } from "../lifts.ts";
import { presentItems, section } from "../section.ts";
import { afterPeakWords, crossoverWords, exhaustShareWords, flatSpotWords, peakWords } from "../words/curves.ts";
import { capitalize } from "../words/text.ts";

/** What the curves show, in sentences, for the engine builder. */
export const curveNotes: BlockBuilder = (context, place) => {
  const { display } = context;
  const { last } = endStages(context);
  if (!last) return [];
  const sides = context.sides.map((side) => {
    const figures = flowedFigures(last, side);
    if (!figures) return [];
    const name = capitalize(side);
    const pair = overallComparison(context, side);
    const { peak } = figures;
    return presentItems<string>([
      peak &&
        peakWords({
          side: name,
          flow: display.full("flow", peak.flow_m3_s),
          lift: display.full("lift", peak.lift_m),
          beyondCam: isBeyondLift(peak.lift_m, camLift(context, side)),
        }),
      afterPeakWords(name, figures, display),
      flatSpotWords(name, figures, display),
      pair && crossoverWords(pair, display),
    ]);
  });
  const share = context.sides.length === 2 ? exhaustShareWords(last.figures, display) : undefined;
  const items = [...sides.map((sentences) => sentences.join(" ")), share].filter(
    (text) => text !== undefined && text !== "",
  );
  return section(
    place,
    "What the curves show",
    items.length === 0 ? [] : [{ kind: "list", items: items.map((text) => ({ text: text as string })) }],
  );
};
