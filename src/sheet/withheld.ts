import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { JobText } from "../model/model.ts";

/**
 * What the shop withholds, each with the values it could be derived from: the smallest section is the pinch, the sections
 * along the port integrate to its volume, and the mean area is volume over length.
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

/** Parses `report.hold_back`. */
export function parseWithheld(holdBack: readonly string[]): Withheld {
  const words = holdBack.map(normalizeWords);
  const has = (word: string) => words.includes(word);
  const pinch = has("pinch");
  const sections = has("sections");
  const portVolume = has("port volume");
  const withheld = { pinch, sections: sections || pinch || portVolume, seat: has("seat cuts"), portVolume };
  const telling = [
    ...(withheld.pinch ? ["pinch", "smallest section"] : []),
    ...(withheld.sections ? ["section", "sections"] : []),
    ...(withheld.seat ? ["seat", "seats", "back cut"] : []),
    ...(withheld.portVolume ? ["port volume", "port volumes"] : []),
  ];
  return { ...withheld, names: (text) => telling.some((word) => ` ${normalizeWords(text)} `.includes(` ${word} `)) };
}

const normalizeWords = (text: string) =>
  text
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, " ")
    .trim();

/** Warns where the porter's own words, which are printed unchanged, state a size of something withheld. */
export function findWithheldWords(text: JobText, withheld: Withheld): readonly Diagnostic[] {
  const words = [
    ...text.work.flatMap(({ items }) => items),
    ...text.notDone,
    ...text.parts.flatMap(({ note }) => note ?? []),
    ...text.photos.flatMap(({ caption }) => caption ?? []),
    ...(text.remarks?.split(/(?<=[.!?])\s+/) ?? []),
  ];
  return words
    .filter((line) => /\d/.test(line) && withheld.names(line))
    .map((line) => ({
      severity: "warning",
      code: "sheet/recipe-in-words",
      message: `\`${line.trim()}\` speaks of what \`hold_back\` keeps, and is printed`,
      hint: "leave the size out, or take the word out of `hold_back`",
    }));
}
