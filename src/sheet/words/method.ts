import type { ComparedFigures } from "../../figures/figures.ts";
import type { Bench, Side } from "../../model/model.ts";
import { presentItems } from "../section.ts";
import { dateWords } from "./dates.ts";
import { joinWords } from "./text.ts";

/** How flow was measured, in sentences that hold for any bench. */
export function methodWords(
  bench: Bench,
  sides: readonly Side[],
  what: { tested: string; reported: string },
): readonly string[] {
  const reads = bench.reads === "percent" ? "The bench reads percent of a range; we turned that into flow." : undefined;
  const meter = bench.meterIsDefault ? ASSUMED_METER : METERS[bench.meter];
  const leaks = sides.filter((side) => bench.leakage?.[side] !== undefined);
  return presentItems<string>([
    `We flowed the ports${bench.name ? ` on ${bench.name}` : ""} at ${what.tested}.`,
    what.tested !== what.reported && `Flow is reported at ${what.reported}, converted by the square-root rule.`,
    reads,
    meter,
    leaks.length > 0 && `Leakage is taken off (${joinWords(leaks)}).`,
    bench.checked !== undefined &&
      `The bench was last checked on ${dateWords(bench.checked)}${bench.against ? ` against ${bench.against}` : ""}.`,
  ]);
}

const METERS: Record<Bench["meter"], string> = {
  orifice: "Its orifice meter stands in the same air as the head, so air density cancels.",
  volumetric: "Its meter shows volume; we brought it to reference air by density.",
  mass: "Its meter shows mass; we brought it to reference air by density.",
};
const ASSUMED_METER = "Its meter was not stated: taken to be an orifice meter, in which air density cancels.";

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
