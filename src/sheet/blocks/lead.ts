import type { Lead, Part } from "../content.ts";
import { type BlockBuilder, overallComparison } from "../context.ts";
import { paragraph, section } from "../section.ts";
import { changeLead, measuredLead, WHAT_IS_MEANT } from "../words/lead.ts";
import { hiddenLossWords } from "../words/lift-claims.ts";

/** The one sentence that the page says first, with what the average hides and what the words mean under it. */
export const lead: BlockBuilder = (context, place) => {
  if (context.model.identity.kind === "product") return [];
  const sentence = changeLead(context) ?? measuredLead(context);
  if (sentence === undefined) return [];
  const pairs = context.sides.flatMap((side) => overallComparison(context, side) ?? []);
  const beside = pairs.flatMap((pair) => hiddenLossWords(pair, context.display) ?? []);
  // An engine builder, whose sheet has no panels, knows the words.
  const meant = context.blocks.includes("flow-panels") ? [WHAT_IS_MEANT] : [];
  const parts: Part[] = [leadPart(sentence), ...paragraph([...beside, ...meant].join(" "), "caption")];
  return section(place, undefined, parts);
};

/** Each ± in brackets is quiet. */
const leadPart = (sentence: string): Lead => ({
  kind: "lead",
  phrases: sentence
    .split(/(\(±[^)]*\))/u)
    .map((text) => text.trim())
    .filter((text) => text !== "")
    .map((text) => (text.startsWith("(±") ? { text, quiet: true } : { text })),
});
