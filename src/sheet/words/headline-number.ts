import { formatNumber } from "../../units/show.ts";
import type { ComparisonPoint } from "../compared.ts";
import type { Context } from "../context.ts";

/**
 * Decimals of a big number by its own ±: those of the ±'s second digit where its first two are 10 to 35, of its first where
 * they are more. Negative for tens. `plusMinus` in the unit shown, greater than 0.
 */
export function decimalsByUncertainty(plusMinus: number): number {
  const exponent = Math.floor(Math.log10(plusMinus));
  const firstTwo = Math.round(plusMinus / 10 ** (exponent - 1));
  // 9.96 is 10 with two digits.
  if (firstTwo >= 100) return 1 - (exponent + 1);
  return firstTwo <= 35 ? 1 - exponent : -exponent;
}

/** Decimals that the big numbers of a page share: the coarsest of theirs, never finer than the table's. */
export function headlineDecimals({ display }: Context, points: readonly (ComparisonPoint | undefined)[]): number {
  const own = points.flatMap((point) => {
    const plusMinus = point?.uncertainty;
    return plusMinus === undefined || plusMinus <= 0 ? [] : [decimalsByUncertainty(display.number("flow", plusMinus))];
  });
  return Math.min(display.decimals("flow"), ...own);
}

/** A flow in those decimals. */
export function headlineNumber({ display }: Context, flow: number, decimals: number): string {
  const value = display.number("flow", flow);
  if (decimals >= 0) return formatNumber(value, decimals);
  const unit = 10 ** -decimals;
  return formatNumber(Math.round(value / unit) * unit, 0);
}
