import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Cell } from "../../parse/parse-delimited.ts";
import { shorten } from "../../util/shorten.ts";
import type { ErrorBuilder } from "./take-error.ts";

export type DecimalMark = "point" | "comma";

const THOUSANDS =
  /^\D?\d{1,3}(?:[.,' \u00a0\u2009\u202f\u2019]\d{3})+[.,]\d|^\D?\d{1,3}(?:[' \u00a0\u2009\u202f\u2019]\d{3})+\D?$|^\D?\d{1,3}(?:[.,]\d{3}){2,}/;
const WITH_COMMA = /^[~+-]?\d*,\d/;
const WITH_POINT = /^[~+-]?\d*\.\d/;

type DetectedMark = { readonly mark: DecimalMark; readonly faults: readonly Diagnostic[] };

/** Detects the decimal mark of the numbers; refuses thousands separators and mixed marks, which are ambiguous. */
export function detectDecimalMark(
  cells: readonly Cell[],
  stated: DecimalMark | undefined,
  fault: ErrorBuilder,
): DetectedMark {
  const thousands = cells.find(({ text }) => THOUSANDS.test(text));
  const mark = stated ?? (cells.some(({ text }) => WITH_COMMA.test(text)) ? "comma" : "point");
  if (thousands) {
    const message = `\`${shorten(thousands.text)}\` has a mark between its thousands`;
    return {
      mark,
      faults: [fault("take/number", message, thousands, "write numbers without one: 1234.5, not 1,234.5")],
    };
  }
  const comma = cells.find(({ text }) => WITH_COMMA.test(text));
  const point = cells.find(({ text }) => WITH_POINT.test(text));
  if (comma && point) {
    const message = `\`${shorten(comma.text)}\` has a comma and \`${shorten(point.text)}\` a point`;
    return {
      mark,
      faults: [fault("take/number", message, comma, "write all numbers alike, without marks between thousands")],
    };
  }
  const other = mark === "comma" ? point : comma;
  if (stated !== undefined && other) {
    const message = `\`${shorten(other.text)}\` has no decimal ${stated}`;
    return { mark, faults: [fault("take/number", message, other, `leave --decimal ${stated} out`)] };
  }
  return { mark, faults: [] };
}

/** Converts a decimal comma to the decimal point of a job file. */
export const toDecimalPoint = (text: string): string => text.replace(/^([~+-]*\d*),(?=\d)/, "$1.");
