import type { Axis } from "./content.ts";

/** Steps that people count in. */
const STEPS = [1, 2, 2.5, 5];
/** Lines over the zero line, at least: of the steps, one gives three to five. */
const FEWEST = 3;
/** A step this far over the highest value still gets its line. */
const OVER = 1.02;
/** White over the highest value, and over the topmost line for its label [pt]. */
const ABOVE_VALUE = 5;
const ABOVE_LINE = 10.5;

/** An axis for labels on grid lines inside a plot: its ends are no ticks. */
type PanelAxis = Pick<Axis, "start" | "end" | "ticks" | "decimals">;

/**
 * Axis from zero for a plot whose labels stand on its grid lines: three to five lines, and at the least plot height room for
 * the topmost label and the highest mark. `plot`: that least height [pt].
 */
export function panelAxis(highest: number, plot: number): PanelAxis {
  const top = highest > 0 ? highest : 1;
  const { step, decimals } = largestStep(top * OVER, FEWEST);
  const ticks = multiples(step, 0, Math.floor((top * OVER) / step + 1e-9));
  return { start: 0, end: endOver(top, ticks.at(-1)!, 0, plot), ticks, decimals };
}

/**
 * Axis on both sides of zero, labelled above its lines: from the lowest to the highest value with the white that labels and
 * marks need. Two to four lines beside that at zero.
 */
export function stripAxis(low: number, high: number, plot: number): PanelAxis {
  const [below, above] = [Math.max(0, -low), Math.max(0, high)];
  const reach = below + above || 1;
  const { step, decimals } = largestStep(reach * OVER, 2);
  const ticks = multiples(step, -Math.floor((below * OVER) / step + 1e-9), Math.floor((above * OVER) / step + 1e-9));
  const foot = (ABOVE_VALUE / plot) * reach;
  const start = low < 0 ? -below - foot : -foot;
  return { start, end: endOver(above, ticks.at(-1)!, start, plot), ticks, decimals };
}

/** Axis as far up as down from zero, ± 10 or the next step that holds `reach`, for changes that are within their ±. */
export function evenAxis(reach: number, steps: readonly number[] = [10, 20, 25, 50]): PanelAxis {
  const step = steps.find((one) => one >= reach) ?? Math.ceil(reach / 100) * 100;
  return { start: -step * EVEN_FOOT, end: step * EVEN_HEAD, ticks: [-step, 0, step], decimals: 0 };
}
/** Room for a label over the topmost line and a little under the lowest, as shares of a step. */
const EVEN_HEAD = 1.35;
const EVEN_FOOT = 1.06;

/** The end at which both the highest mark and the topmost label have their white. */
function endOver(value: number, line: number, start: number, plot: number): number {
  const reach = (at: number, white: number) => start + ((at - start) * plot) / (plot - white);
  return Math.max(reach(value, ABOVE_VALUE), reach(line, ABOVE_LINE));
}

/** The largest step of which at least `least` fit. */
function largestStep(
  reach: number,
  least: number,
  factors: readonly number[] = STEPS,
): { readonly step: number; readonly decimals: number } {
  for (let exponent = Math.ceil(Math.log10(reach)); ; exponent--)
    for (const factor of factors.toReversed()) {
      const step = exponent < 0 ? factor / 10 ** -exponent : factor * 10 ** exponent;
      const count = Math.floor(reach / step + 1e-9);
      if (count < least) continue;
      return { step, decimals: Math.max(0, -exponent + (factor === 2.5 ? 1 : 0)) };
    }
}

/** Multiples of a step; a step below one is divided, for 0.1 is not exact in binary. */
function multiples(step: number, from: number, to: number): readonly number[] {
  const scale = step < 1 ? Math.round(1 / step) : undefined;
  return Array.from(
    { length: to - from + 1 },
    (_, i) => (scale === undefined ? (from + i) * step : (from + i) / scale) + 0,
  );
}

/** Lifts are counted in round steps. */
const LIFT_STEPS = [1, 2, 5];
/** White right of the last reading [pt]. */
const RIGHT = 12;

/** Axis of lifts from zero over a plot of some width: its ticks are round, its end leaves white for the last mark. */
export function liftAxis(highest: number, width: number): PanelAxis {
  const top = highest > 0 ? highest : 1;
  const { step, decimals } = largestStep(top * (1 + 1e-9), 4, LIFT_STEPS);
  const ticks = multiples(step, 0, Math.floor(top / step + 1e-9));
  return { start: 0, end: (top * width) / (width - RIGHT), ticks, decimals };
}
