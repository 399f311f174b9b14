import { createHash } from "node:crypto";
import type { Figures } from "../figures/figures.ts";
import type { Model } from "../model/model.ts";
import { parseWithheld } from "../sheet/withheld.ts";
import { shownFigures } from "./shown-figures.ts";

/** Significant digits in the hash: more than a bench resolves, fewer than may differ between processors. */
const DIGITS = 6;
/** Hexadecimal digits: collisions have a probability of 1 in 4.3 × 10⁹. */
const LENGTH = 8;

/**
 * A short hash of the figures on a sheet. Only exported figures enter it, so it reveals nothing withheld; dates, revision and
 * text do not enter it.
 */
export function figuresMark(model: Model, figures: Figures): string {
  const { job, product, stages, comparisons, sample } = shownFigures(figures, parseWithheld(model.report.holdBack));
  const text = JSON.stringify(roundData({ job, product, stages, comparisons, sample }));
  return createHash("sha256").update(text).digest("hex").slice(0, LENGTH);
}

/** Rounds all numbers of plain data; faster than a replacer function in JSON.stringify. */
export function roundData(value: unknown): unknown {
  if (typeof value === "number") return roundFigure(value);
  if (typeof value !== "object" || value === null) return value;
  if (Array.isArray(value)) return value.map(roundData);
  const same: Record<string, unknown> = {};
  for (const key in value) same[key] = roundData((value as Record<string, unknown>)[key]);
  return same;
}

/** Powers of ten that a double represents exactly. */
const TENS = Array.from({ length: 23 }, (_, k) => Number(`1e${k}`));

/** `Number(value.toPrecision(6))`, by integer rounding where the result is certainly equal. */
export function roundFigure(value: number): number {
  if (Number.isInteger(value) && Math.abs(value) < 1e6) return value;
  const size = Math.abs(value);
  const ten = TENS[DIGITS - 1 - Math.floor(Math.log10(size))];
  if (ten === undefined) return Number(value.toPrecision(DIGITS));
  const scaled = size * ten;
  const whole = Math.round(scaled);
  const nearHalf = Math.abs(Math.abs(scaled - whole) - 0.5) < 1e-6;
  if (nearHalf || scaled < 1e5 || whole >= 1e6) return Number(value.toPrecision(DIGITS));
  return value < 0 ? -whole / ten : whole / ten;
}
