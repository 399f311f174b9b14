import { formatNumber, formatSigned, withUnit } from "../units/show.ts";

/** A ratio in percent. */
export const percent = (ratio: number, decimals = 1): string => withUnit(percentDigits(ratio, decimals), "ratio", "%");

/** The same without the unit, for a column that has it in its head. */
export const percentDigits = (ratio: number, decimals = 1): string => formatNumber(ratio * 100, decimals);

/** A change in percent without the unit, plus or minus first. */
export const signedPercentDigits = (ratio: number, decimals = 1): string => formatSigned(ratio * 100, decimals);
