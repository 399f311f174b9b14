import type { Theme } from "./theme.ts";

/** Of every earlier stage: over 3 : 1 on white, and light enough to stay 20 in L* from any accent we let pass. */
export const earlierGrey = "#8e8e8e";

/** One look a line, told apart without colour: each its own dash and marker, open for what came before. */
export function seriesStyles(accent: string): Theme["series"] {
  const earlier = (dash: readonly number[], marker: Theme["series"]["latest"]["marker"]) =>
    ({ color: earlierGrey, width: 1, dash, marker, filled: false }) as const;
  // Colours: Okabe and Ito, Color Universal Design, those of at least 3 : 1 on white, black aside.
  const other = (color: string, dash: readonly number[], marker: Theme["series"]["latest"]["marker"]) =>
    ({ color, width: 1.25, dash, marker, filled: true }) as const;
  return {
    latest: { color: accent, width: 1.75, dash: [], marker: "circle", filled: true },
    earlier: [
      earlier([5, 2.5], "circle"),
      earlier([2, 2], "square"),
      earlier([8, 2.5, 2, 2.5], "triangle-up"),
      earlier([3.5, 1.5], "diamond"),
    ],
    others: [
      other("#d55e00", [9, 3], "square"),
      other("#009e73", [1.25, 2], "triangle-up"),
      other("#cc79a7", [6, 2, 1.25, 2], "diamond"),
      other("#0072b2", [6, 1.5, 1.25, 1.5, 1.25, 1.5], "triangle-down"),
    ],
  };
}
