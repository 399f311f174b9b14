import { createHash } from "node:crypto";
import type { Figures } from "../figures/figures.ts";
import type { Model } from "../model/model.ts";
import { readHeld } from "../sheet/held.ts";
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
  const { job, product, stages, comparisons, sample } = shownFigures(figures, readHeld(model.report.holdBack));
  const text = JSON.stringify(rounded({ job, product, stages, comparisons, sample }));
  return createHash("sha256").update(text).digest("hex").slice(0, LENGTH);
}

/** The same plain data with numbers of so many digits: quicker than to be asked about each key while it is written. */
function rounded(value: unknown): unknown {
  if (typeof value === "number") return Number(value.toPrecision(DIGITS));
  if (typeof value !== "object" || value === null) return value;
  if (Array.isArray(value)) return value.map(rounded);
  const same: Record<string, unknown> = {};
  for (const key in value) same[key] = rounded((value as Record<string, unknown>)[key]);
  return same;
}
