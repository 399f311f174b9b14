import { type BlockBuilder, camLift, endStages, flowed, wholeChange } from "../context.ts";
import { sameLift } from "../same-lift.ts";
import { said, section } from "../section.ts";
import { afterPeak, crossovers, exhaustShare, flatSpots, peakWords } from "../words/curves.ts";
import { capital } from "../words/text.ts";

/** What the curves show, in sentences, for the engine builder. */
export const curveNotes: BlockBuilder = (context, place) => {
  const { display } = context;
  const { last } = endStages(context);
  if (!last) return [];
  const sides = context.sides.map((side) => {
    const figures = flowed(last, side);
    if (!figures) return [];
    const name = capital(side);
    const pair = wholeChange(context, side);
    const cam = camLift(context, side);
    const { peak } = figures;
    return said<string>([
      peak &&
        peakWords({
          side: name,
          flow: display.full("flow", peak.flow_m3_s),
          lift: display.full("lift", peak.lift_m),
          beyondCam: cam !== undefined && peak.lift_m > cam && !sameLift(peak.lift_m, cam),
        }),
      afterPeak(name, figures, display),
      flatSpots(name, figures, display),
      pair && crossovers(pair, display),
    ]);
  });
  const share = context.sides.length === 2 ? exhaustShare(last.figures.exhaust_to_intake, display) : undefined;
  const items = [...sides.map((sentences) => sentences.join(" ")), share].filter(
    (text) => text !== undefined && text !== "",
  );
  return section(
    place,
    "What the curves show",
    items.length === 0 ? [] : [{ kind: "list", items: items.map((text) => ({ text: text as string })) }],
  );
};
