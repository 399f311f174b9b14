import type { BlockBuilder } from "../context.ts";
import { paragraph, section } from "../section.ts";

/** The porter's own words and opinions, apart from results and under his name. */
export const remarks: BlockBuilder = ({ model: { text, shop, stages } }, place) => {
  const paragraphs = (text.remarks ?? "").split(/\n\s*\n/).map((words) => words.replaceAll(/\s+/g, " ").trim());
  const kept = paragraphs.filter((words) => words !== "");
  const name = stages.at(-1)?.by ?? shop.responsible;
  return section(
    place,
    name ? `Remarks by ${name}` : "Remarks",
    kept.flatMap((words) => paragraph(words)),
  );
};
