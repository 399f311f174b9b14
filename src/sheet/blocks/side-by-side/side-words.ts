import { formatNumber } from "../../../units/show.ts";
import { type BlockBuilder, type Context, overallComparison } from "../../context.ts";
import { paragraph, section } from "../../section.ts";
import { pairOf, type SideHead, sideHeads } from "../../side-by-side/heads.ts";

/** What no sheet of two heads can tell, always; and what may be said of filling. */
export const sideLimits: BlockBuilder = (context, place) => {
  const heads = sideHeads(context);
  if (heads.length < 2) return [];
  const words = [
    "Torque and power: a dynamometer decides.",
    "Flow was steady: nothing here is about pulses, fuel or other parts.",
    fillingOfHeads(context, heads) ?? "Which head fills better cannot be told from what was measured.",
  ].join(" ");
  return section(place, "What this sheet cannot tell", paragraph(words, "small"));
};

/** Between A and the head that flows most at the cam's lift. */
function fillingOfHeads(context: Context, heads: readonly SideHead[]): string | undefined {
  const [a, ...others] = heads as [SideHead, ...SideHead[]];
  const atCam = (head: SideHead) => {
    const pair = pairOf(context, a, head, "intake");
    const cam = pair?.compared?.find(({ at }) => at === "cam")?.lift_m;
    return pair?.changes.find(({ lift_m: one }) => one === cam)?.from_m3_s ?? 0;
  };
  const b = others.toSorted((one, other) => atCam(other) - atCam(one))[0]!;
  const found = pairOf(context, a, b, "intake")?.fills_better;
  if (!found || a.withheld.portVolume || b.withheld.portVolume) return undefined;
  return fillingWords(`head ${found.head === "to" ? a.letter : b.letter}`, found.above_rpm);
}

const fillingWords = (which: string, rpm: number) =>
  `Calculated, not measured: with the same cam, pipes and exhaust, ${which} should draw in more air above about ${formatNumber(rpm, 0)} rpm. How much more, and which head fills better below that speed, depends on pipes that were not measured.`;

/** The same of the head before and after the work, for the engine sheet; nothing where it cannot be told. */
export const filling: BlockBuilder = (context, place) => {
  const found = overallComparison(context, "intake")?.fills_better;
  if (!found || context.withheld.portVolume || place.onePage) return [];
  const which = found.head === "to" ? "the finished head" : "the head as it came";
  return section(place, undefined, paragraph(fillingWords(which, found.above_rpm), "small"));
};

/** The porter's own judgement in his words, apart from the results. */
export const opinion: BlockBuilder = ({ model: { text, shop } }, place) =>
  section(
    place,
    shop.responsible ? `Opinion of ${shop.responsible}` : "Opinion",
    text.opinion ? paragraph(`“${text.opinion}”`, "small") : [],
  );
