import { type Finding, readingName, readingPlace, type SideCheckInput, type SideRule } from "./check-input.ts";
import type { Deviation } from "./deviations.ts";

/**
 * A reading more than 5 % off the trend of its port's neighbours. At the ends of a sweep, or where neighbours lie far apart, only
 * a reading that a typing error would explain is reported.
 * @source common practice
 */
export const offTrend: SideRule = (input) => input.deviations.map((one) => trendFinding(input, one));

function trendFinding(input: SideCheckInput, { point, trend, share, meant }: Deviation): Finding {
  const side = point.flow > trend ? "above" : "below";
  const { reads } = point.run.bench;
  return {
    code: "figures/off-trend",
    message: `${readingName(input, point.lift, point.flow, point)} lies ${input.format.percent(share)} ${side} the trend of its neighbours`,
    hint:
      meant === undefined
        ? `misread, mistyped, ${reads === "percent" ? "a wrong range, " : ""}or a lift set wrong: measure it again`
        : `did you mean ${meant}?`,
    ...(meant === undefined ? {} : { proposes: true }),
    ...readingPlace(input, point.lift, point),
  };
}
