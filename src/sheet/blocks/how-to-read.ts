import { type BlockBuilder, endStages, flowed } from "../context.ts";
import { said, section } from "../section.ts";

type Word = { readonly lead: string; readonly text: string };

/** The words of this sheet, for somebody who meets them the first time. */
export const howToRead: BlockBuilder = (context, place) => {
  const { last, first } = endStages(context);
  const flow = context.sides.some((side) => flowed(last, side)) || context.figures.sample !== undefined;
  if (!flow) return [];
  const pinch = !context.held.pinch && context.sides.some((side) => last?.stage.ports[side]?.pinch);
  const words = said<Word>([
    { lead: "Lift:", text: "how far the valve is open. Net lift is what the valve really gets." },
    { lead: "Flow:", text: `air through the port in ${context.display.unit("flow")}, at a fixed pressure.` },
    first && { lead: "Clear gain, clear loss:", text: "the change is larger than its ±." },
    first && { lead: "Within repeatability:", text: "too small to tell from measuring twice." },
    first && { lead: "Too few repeats to say:", text: "we did not measure often enough to claim anything." },
    { lead: "Lift ÷ diameter:", text: "lift as share of the valve's diameter, to compare valves of unlike size." },
    pinch && { lead: "Pinch:", text: "the smallest section of the port." },
  ]);
  return section(place, "How to read this sheet", [{ kind: "list", compact: true, items: words }]);
};
