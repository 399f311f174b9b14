import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { JobText } from "../model/model.ts";

/**
 * What the shop keeps to itself, each with whatever gives it away: the smallest of the sections is the pinch, all of them
 * along the port add up to its volume, and a port's mean area is its volume over its length.
 */
export type Withheld = {
  /** Smallest section, gas speed in it, engine speeds made from either. */
  readonly pinch: boolean;
  readonly sections: boolean;
  /** Angles and widths of seat and valve face. */
  readonly seat: boolean;
  readonly portVolume: boolean;
  /** Whether words name something that is held back. */
  readonly names: (words: string) => boolean;
};

/** Reads `report.hold_back`. */
export function parseWithheld(holdBack: readonly string[]): Withheld {
  const words = holdBack.map(plain);
  const has = (word: string) => words.includes(word);
  const pinch = has("pinch");
  const sections = has("sections");
  const portVolume = has("port volume");
  const held = { pinch, sections: sections || pinch || portVolume, seat: has("seat cuts"), portVolume };
  const telling = [
    ...(held.pinch ? ["pinch", "smallest section"] : []),
    ...(held.sections ? ["section", "sections"] : []),
    ...(held.seat ? ["seat", "seats", "back cut"] : []),
    ...(held.portVolume ? ["port volume", "port volumes"] : []),
  ];
  return { ...held, names: (text) => telling.some((word) => ` ${plain(text)} `.includes(` ${word} `)) };
}

const plain = (text: string) =>
  text
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, " ")
    .trim();

/** The porter's own words are printed as he wrote them: where they state a size of what he holds back, he should know. */
export function recipeInWords(text: JobText, held: Withheld): readonly Diagnostic[] {
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
