import { contrast, minTextContrast } from "./contrast.ts";
import type { Theme } from "./theme.ts";

/** Colour of every earlier stage: darker than half grey, so that it survives a copy in black and white, and 9 in L* from any accent we let pass. */
export const earlierGrey = "#707070";

type Look = Theme["series"]["latest"];

/** Colours: Okabe and Ito, Color Universal Design, those of at least 3 : 1 on white, black aside. */
const [VERMILLION, GREEN, PURPLE, BLUE] = ["#d55e00", "#009e73", "#cc79a7", "#0072b2"] as const;

/** Line styles, each with its own dash and marker; earlier stages have open markers. */
export function seriesStyles(
  accent: string,
  { ink, quiet, paper }: Pick<Theme["colors"], "ink" | "quiet" | "paper">,
): Theme["series"] {
  const label = (color: string) => (contrast(color, paper) >= minTextContrast ? color : ink);
  const earlier = (dash: readonly number[], marker: Look["marker"]): Look => ({
    color: earlierGrey,
    label: quiet,
    width: 1,
    dash,
    marker,
    filled: false,
  });
  const other = (color: string, dash: readonly number[], marker: Look["marker"], filled = true): Look => ({
    color,
    label: label(color),
    width: 1.25,
    dash,
    marker,
    filled,
  });
  return {
    latest: { color: accent, label: label(accent), width: 1.75, dash: [], marker: "circle", filled: true },
    // Eight: with the latest they are nine stages.
    earlier: [
      earlier([5, 2.5], "circle"),
      earlier([2.5, 2.5], "square"),
      earlier([8, 2.5, 2, 2.5], "triangle-up"),
      earlier([3.5, 1.5], "diamond"),
      earlier([12, 2.5], "triangle-down"),
      earlier([1.5, 3.5], "bow-tie"),
      earlier([5, 1.5, 2, 1.5], "bar"),
      earlier([8, 1.5, 1.5, 1.5, 1.5, 1.5], "post"),
    ],
    // Twelve, as many as may be compared; two of one colour are never alike in dash or marker.
    others: [
      other(VERMILLION, [9, 3], "square"),
      other(GREEN, [1.25, 2], "triangle-up"),
      other(PURPLE, [6, 2, 1.25, 2], "diamond"),
      other(BLUE, [6, 1.5, 1.25, 1.5, 1.25, 1.5], "triangle-down"),
      other(VERMILLION, [4, 4], "cross"),
      other(GREEN, [15, 3], "hourglass"),
      other(PURPLE, [1.25, 5], "triangle-left"),
      other(BLUE, [10, 2.5, 3, 2.5], "triangle-right"),
      other(VERMILLION, [5, 6], "triangle-left", false),
      other(GREEN, [5, 2, 5, 2, 1.25, 2], "cross", false),
      other(PURPLE, [3, 1.5, 1.25, 1.5], "hourglass", false),
      other(BLUE, [6, 1.5, 1.25, 1.5, 1.25, 1.5, 1.25, 1.5], "triangle-right", false),
    ],
  };
}
