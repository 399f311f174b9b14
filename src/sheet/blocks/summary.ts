import type { BlockBuilder } from "../context.ts";
import { paragraph, section } from "../section.ts";
import { beforeItRuns, whatChanged, whatWasDone } from "../summary.ts";

/** Three plain things: what was done, what changed and how sure we are, what to do before it runs. */
export const summary: BlockBuilder = (context, place) => {
  if (context.model.identity.kind === "product") return [];
  return section(place, undefined, [
    ...paragraph(whatWasDone(context), "body", "Done."),
    ...paragraph(whatChanged(context), "body", "Changed."),
    ...paragraph(beforeItRuns(context), "body", "Next."),
  ]);
};
