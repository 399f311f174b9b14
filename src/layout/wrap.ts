import type { Measure, Weight } from "../text/measure.ts";

/** Words in one weight. */
export type Phrase = { readonly text: string; readonly weight: Weight };
/** A piece of a line in one weight, from `x` on. */
type Piece = Phrase & { readonly x: number; readonly width: number };
export type WrappedLine = { readonly pieces: readonly Piece[]; readonly width: number };

type Word = Phrase & { readonly width: number; readonly breakBefore: boolean };

/**
 * Breaks phrases into lines no wider than `width`, each as full as it goes. Breaks at plain spaces and line ends only, never
 * at a no-break space; a word wider than the line is cut as a last resort.
 */
export function wrap(
  phrases: readonly Phrase[],
  size: number,
  width: number,
  measure: Measure,
): readonly WrappedLine[] {
  const lines: WrappedLine[] = [];
  let line: Word[] = [];
  let filled = 0;
  const end = () => {
    lines.push(joinWords(line, size, measure));
    line = [];
    filled = 0;
  };
  for (const word of splitWords(phrases, size, width, measure)) {
    const gap = line.length > 0 ? measure.width(" ", word.weight, size) : 0;
    if (line.length > 0 && (word.breakBefore || filled + gap + word.width > width + 1e-6)) {
      end();
      line = [word];
      filled = word.width;
    } else {
      line.push(word);
      filled += gap + word.width;
    }
  }
  if (line.length > 0) end();
  return lines;
}

/** The widest word: no column can be narrower without cutting it. */
export function widestWordWidth(text: string, weight: Weight, size: number, measure: Measure): number {
  return Math.max(0, ...text.split(/[ \n]+/).map((word) => measure.width(word, weight, size)));
}

function splitWords(phrases: readonly Phrase[], size: number, width: number, measure: Measure): readonly Word[] {
  const found: Word[] = [];
  for (const { text, weight } of phrases)
    for (const [n, paragraph] of text.split("\n").entries()) {
      let first = n > 0;
      for (const word of paragraph.split(/[ \t\r]+/)) {
        if (word === "") continue;
        const own = measure.width(word, weight, size);
        if (own <= width + 1e-6) found.push({ text: word, weight, width: own, breakBefore: first });
        else
          for (const [j, piece] of splitWord(word, weight, size, width, measure).entries())
            found.push({ text: piece, weight, width: measure.width(piece, weight, size), breakBefore: first || j > 0 });
        first = false;
      }
    }
  return found;
}

/** A word too wide for its line, in pieces. */
function splitWord(word: string, weight: Weight, size: number, width: number, measure: Measure): readonly string[] {
  const pieces: string[] = [];
  let piece = "";
  for (const letter of word) {
    if (piece !== "" && measure.width(piece + letter, weight, size) > width + 1e-6) {
      pieces.push(piece);
      piece = "";
    }
    piece += letter;
  }
  return [...pieces, piece];
}

/** Neighbours in one weight become one piece of text, whole for search and copy. */
function joinWords(line: readonly Word[], size: number, measure: Measure): WrappedLine {
  const pieces: Piece[] = [];
  let x = 0;
  for (let from = 0; from < line.length; ) {
    const { weight, text: first, width: only } = line[from]!;
    let to = from + 1;
    while (line[to]?.weight === weight) to += 1;
    const text =
      to === from + 1
        ? first
        : line
            .slice(from, to)
            .map((word) => word.text)
            .join(" ");
    const width = to === from + 1 ? only : measure.width(text, weight, size);
    if (from > 0) x += measure.width(" ", weight, size);
    pieces.push({ text, weight, x, width });
    x += width;
    from = to;
  }
  return { pieces, width: x };
}

/** Fewest words of the last line of a sentence that stands alone, and of an item of a list. */
export const LAST_LINE = { sentence: 3, item: 2 } as const;
/** Narrowest setting of a text, as a share of the width, and the step towards it. */
const NARROWEST = 0.7;
const STEP = 0.02;

/** Wraps so that the last of several lines has so many words, narrower where that takes no further line. */
export function wrapBalanced(
  phrases: readonly Phrase[],
  size: number,
  width: number,
  measure: Measure,
  least: number = LAST_LINE.sentence,
): readonly WrappedLine[] {
  const full = wrap(phrases, size, width, measure);
  for (let share = 1; share >= NARROWEST; share -= STEP) {
    const lines = share === 1 ? full : wrap(phrases, size, width * share, measure);
    if (lines.length > full.length) break;
    if (lines.length <= 1 || wordCount(lines.at(-1)!) >= least) return lines;
  }
  return full;
}

const wordCount = ({ pieces }: WrappedLine) =>
  pieces.flatMap(({ text }) => text.split(" ")).filter((word) => word !== "").length;
