import type { ComparedFigures } from "../../figures/figures.ts";

/** Where on the curve the sheet compares, in the trade's words. */
export function whereWords(at: ComparedFigures["at"], lift: string): string {
  switch (at) {
    case "low":
      return `at low lift, ${lift}`;
    case "mid":
      return `at mid lift, ${lift}`;
    case "high":
      return `at high lift, ${lift}`;
    case "cam":
      return `at your cam's lift, ${lift}`;
    case "peak":
      return `at its peak, ${lift}`;
    default:
      return `at ${lift}`;
  }
}

/** The same as a name in a table; a lift of its own has none. */
export function whereLabel(at: ComparedFigures["at"]): string | undefined {
  switch (at) {
    case "low":
    case "mid":
    case "high":
      return `${at} lift`;
    case "cam":
      return "your cam's lift";
    case "peak":
      return "peak";
    default:
      return undefined;
  }
}
