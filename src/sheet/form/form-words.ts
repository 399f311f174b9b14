import type { Form, FormLifts } from "../../model/form/form.ts";
import type { Display } from "../display.ts";
import { joinWords } from "../words/text.ts";

/** The marks of a readings table, in one line. */
export const MARKS_WORDS = "Marks: 118? doubtful, ~118.5 struck out, 118! unsteady, - not taken; say why beside it.";

/** Where the lifts on the form come from. */
export function liftSourceWords({ at, from }: FormLifts, display: Display): string {
  const step = at[0] === undefined ? "" : `every ${display.full("lift", at[0])}`;
  switch (from.kind) {
    case "asked":
      return "Lifts as asked for.";
    case "stage":
      return `Lifts as in ${from.name}.`;
    case "cam":
      return `Lifts ${step}, up to the cam's (common practice).`;
    case "valve":
      return `Lifts ${step}, up to 0.30 of the valve's diameter (common practice).`;
    case "neither":
      return `Lifts ${step} (common practice).`;
  }
}

/** Instructions for typing the form in. */
export function typingWords({ spelledOut, reads }: Form, display: Display): string {
  const kinds = spelledOut.filter(
    (kind) =>
      kind !== "words" && kind !== "ratio" && kind !== "springRate" && !(kind === "flow" && reads === "percent"),
  );
  const units = kinds.map((kind) =>
    kind === "words" || kind === "ratio" || kind === "springRate" ? "%" : display.unit(kind),
  );
  const typed = [...new Set([...units, display.unit("barometer"), "%"])];
  return `A size left blank counts as not re-measured. Type the unit with numbers in ${joinWords(typed)}.`;
}

/** Cautions for work at the bench, each at most 45 words. */
export const BENCH_CAUTIONS: readonly string[] = [
  "Grinding dust: extraction on, eye and breathing protection on.",
  "Edges are sharp: wear gloves.",
];

/** What the columns of the valves mean. */
export const SET_UP_WORDS =
  "Height: spring as fitted, its shim in place. Tip: above the spring seat. Drop: valve's face below the deck. Guide: clearance. Vacuum: held, lost or a reading. - not taken. Type the unit with forces and the rate.";
