import type { Figures } from "../../figures/figures.ts";

/** The job's own stages under their leading conditions: other sets and other heads have no place on a card. */
export function ownStages(figures: Figures): Figures {
  const stages = figures.stages.map((stage) => ({ ...stage, sets: [] }));
  const { others: _, ...own } = figures;
  return { ...own, stages };
}
