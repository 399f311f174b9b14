import { createHash } from "node:crypto";
import type { Figures } from "../figures/figures.ts";
import type { Model } from "../model/model.ts";
import { parseWithheld } from "../sheet/withheld.ts";
import { shownFigures } from "./shown-figures.ts";

/** Digits that count: more than any bench can tell, fewer than another processor might turn out differently. */
const DIGITS = 6;
/** Hexadecimal digits: one chance in four thousand million that other figures bear the same mark. */
const LENGTH = 8;

/**
 * A short mark of the figures that a sheet shows: other figures, another mark. Made only from what may leave the shop, so it
 * tells nothing about what is held back; dates, revision and words are no figures.
 */
export function figuresMark(model: Model, figures: Figures): string {
  const { job, product, stages, comparisons, sample } = shownFigures(figures, parseWithheld(model.report.holdBack));
  const text = JSON.stringify(roundedData({ job, product, stages, comparisons, sample }));
  return createHash("sha256").update(text).digest("hex").slice(0, LENGTH);
}

/** The same plain data with numbers of so many digits: quicker than to be asked about each key while it is written. */
export function roundedData(value: unknown): unknown {
  if (typeof value === "number") return rounded(value);
  if (typeof value !== "object" || value === null) return value;
  if (Array.isArray(value)) return value.map(roundedData);
  const same: Record<string, unknown> = {};
  for (const key in value) same[key] = roundedData((value as Record<string, unknown>)[key]);
  return same;
}

/** Powers of ten that a number holds exactly. */
const TENS = Array.from({ length: 23 }, (_, k) => Number(`1e${k}`));

/** `Number(value.toPrecision(6))`, by way of a whole number of six digits wherever that is surely the same. */
export function rounded(value: number): number {
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
