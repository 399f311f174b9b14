import { applicableCautions } from "./cautions.ts";
import { type BlockBuilder, type Context, overallComparison } from "./context.ts";
import { paragraph, presentItems, section } from "./section.ts";
import { averageChangeWords } from "./words/average-change.ts";
import { pairDifferenceWords } from "./words/conditions.ts";
import { hiddenLossWords } from "./words/lift-claims.ts";
import { countWords, joinWords, lowercaseFirst } from "./words/text.ts";

/** Areas named in one sentence; more are counted. */
const MOST_AREAS = 4;

/** What was done, in one sentence. */
function workSummary({ model: { text }, stages }: Context): string {
  const areas = text.work.map(({ area }) => lowercaseFirst(area));
  const heads = text.heads.length > 1 ? `these ${countWords(text.heads.length, "head")}` : "this head";
  if (areas.length === 0) {
    return stages.some(({ stage }) => stage.sets.length > 0)
      ? `We measured ${heads}; this sheet lists no work.`
      : `This sheet describes ${heads}; it lists no work.`;
  }
  const named = areas.slice(0, MOST_AREAS);
  const rest = areas.length - named.length;
  return `Work on ${joinWords(rest > 0 ? [...named, `${rest} more`] : named)}.`;
}

/** What changed and how sure we are: a sentence a side. */
function changeSummary(context: Context): string | undefined {
  const pairs = context.sides.flatMap((side) => overallComparison(context, side) ?? []);
  const said = pairs.flatMap((pair) => averageChangeWords(pair) ?? []);
  if (said.length === 0) return undefined;
  const losses = pairs.flatMap((pair) => hiddenLossWords(pair, context.display) ?? []);
  const unlike = pairs.flatMap((pair) => pairDifferenceWords(pair) ?? []);
  return [...said, ...losses, ...unlike].join(" ");
}

/** Steps named in the one sentence of the summary. */
const MOST_STEPS = 1;

/** What to do before the engine runs, the most pressing first. */
function nextStepSummary(context: Context): string | undefined {
  const steps = applicableCautions(context).flatMap(({ before }) => before ?? []);
  if (steps.length === 0) return undefined;
  return `Before it runs, ${steps.slice(0, MOST_STEPS).join("; ")}.`;
}

/** Three plain things: what was done, what changed and how sure we are, what to do before it runs. */
export const summary: BlockBuilder = (context, place) => {
  if (context.model.identity.kind === "product") return [];
  return section(place, undefined, [
    ...paragraph(workSummary(context), "body", "Done."),
    ...paragraph(changeSummary(context), "body", "Changed."),
    ...paragraph(nextStepSummary(context), "body", "Next."),
  ]);
};

/** Plain lines to go with a sheet: a greeting, what is attached, what changed, what to do before it runs, and who writes. */
export function mailLines(context: Context): readonly string[] {
  const { identity, text, shop } = context.model;
  const sheet = `${identity.title} (${identity.number}, revision ${identity.revision})`;
  if (identity.kind === "product")
    return presentItems<string>([`The page of ${sheet} is attached.`, shopSignature(shop)]);
  const greeting = text.customer ? [`Dear ${text.customer.name},`, ""] : [];
  const whose = text.customer ? "your" : "this";
  const lines = presentItems<string>([
    `The sheet of ${whose} head is attached: ${sheet}${identity.draft ? ", a draft" : ""}.`,
    changeSummary(context) ?? workSummary(context),
    nextStepSummary(context),
    shopSignature(shop),
  ]);
  return [...greeting, ...lines];
}

const shopSignature = ({ responsible, name, phone }: Context["model"]["shop"]) =>
  presentItems<string>([responsible, name, phone]).join(", ");
