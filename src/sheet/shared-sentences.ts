import type { Part } from "./content.ts";
import { paragraph } from "./section.ts";

/** What is said of one stage, or of one part. */
type SaidOfStage = { readonly name: string; readonly said: readonly string[] };

/** What holds for all stages, and what is each one's own. */
export function sharedSentences(stages: readonly SaidOfStage[]): {
  readonly shared: readonly string[];
  readonly own: readonly SaidOfStage[];
} {
  const shared = stages[0]?.said.filter((one) => stages.every(({ said }) => said.includes(one))) ?? [];
  return { shared, own: stages.map(({ name, said }) => ({ name, said: said.filter((one) => !shared.includes(one)) })) };
}

/** Sentences that hold for all stages and those that close them, then each stage's own under its name. */
export function stageParagraphs(stages: readonly SaidOfStage[], closing: readonly string[] = []): readonly Part[] {
  const { shared, own } = sharedSentences(stages);
  return [
    ...paragraph([...shared, ...closing].join(" "), "caption"),
    ...own.flatMap(({ name, said }) => paragraph(said.join(" "), "caption", `${name}:`)),
  ];
}
