import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { JobText } from "../model/model.ts";
import type { Held } from "./held.ts";

/** The porter's own words are printed as he wrote them: where they state a size of what he holds back, he should know. */
export function recipeInWords(text: JobText, held: Held): readonly Diagnostic[] {
  const words = [
    ...text.work.flatMap(({ items }) => items),
    ...text.notDone,
    ...text.parts.flatMap(({ note }) => note ?? []),
    ...text.photos.flatMap(({ caption }) => caption ?? []),
    ...(text.remarks?.split(/(?<=[.!?])\s+/) ?? []),
  ];
  return words
    .filter((line) => /\d/.test(line) && held.names(line))
    .map((line) => ({
      severity: "warning",
      code: "sheet/recipe-in-words",
      message: `\`${line.trim()}\` speaks of what \`hold_back\` keeps, and is printed`,
      hint: "leave the size out, or take the word out of `hold_back`",
    }));
}
