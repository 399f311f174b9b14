import { exceeds } from "../math/limits.ts";
import { type Finding, readingName, readingPlace, type SideRule } from "./check-input.ts";

const ODD = 0.88;
const IMPOSSIBLE = 1;
/** Below this lift ÷ diameter a small lift error can produce any coefficient. */
const TRUSTED_LIFT = 0.03;

/** Flow above what a curtain passes: odd above 0.88 of its ideal, refused above all of it. @source common practice */
export const curtainCoefficient: SideRule = (input) =>
  input.readings.flatMap((reading): Finding[] => {
    const { curtain_coefficient: coefficient, lift_to_diameter: share, lift_m, flow_m3_s } = reading;
    if (coefficient === undefined || !exceeds(coefficient, ODD)) return [];
    const name = readingName(input, lift_m, flow_m3_s);
    const at = readingPlace(input, lift_m);
    if (exceeds(coefficient, IMPOSSIBLE) && exceeds(share!, TRUSTED_LIFT)) {
      return [
        {
          severity: "error",
          code: "figures/curtain-over-ideal",
          message: `${name} is ${input.format.ratio(coefficient)} of all that the curtain could ever pass`,
          hint: "check the lift, the flow, the valve diameter and the number of valves, and the range read on the bench",
          ...at,
        },
      ];
    }
    return [
      {
        code: "figures/curtain-coefficient",
        message: `${name} is ${input.format.ratio(coefficient)} of the curtain's ideal flow, more than a valve passes`,
        hint: "lift set too high, a wrong range, a leak, or a valve typed too small",
        ...at,
      },
    ];
  });

/** Highest plausible coefficient on the minimum area, up to a lift ÷ diameter. */
const LIMITS = [
  { below: 0.12, limit: 1.2 },
  { below: 0.15, limit: 1.05 },
  { below: Number.POSITIVE_INFINITY, limit: 0.97 },
] as const;

/** Flow above what the minimum area passes; low lifts are allowed more, where the seat's real shape counts. @source common practice */
export const minimumAreaCoefficient: SideRule = (input) =>
  input.readings.flatMap((reading) => {
    const { discharge_coefficient: coefficient, lift_to_diameter: share } = reading;
    if (coefficient === undefined || share === undefined) return [];
    const { limit } = LIMITS.find(({ below }) => share < below) ?? LIMITS[2];
    if (!exceeds(coefficient, limit)) return [];
    return [
      {
        code: "figures/minimum-area-coefficient",
        message: `${readingName(input, reading.lift_m, reading.flow_m3_s)} is ${input.format.ratio(coefficient)} of the minimum area's ideal flow, above ${input.format.ratio(limit)}`,
        hint: "check the throat, the seat and the stem as typed, then the lift and the range",
        ...readingPlace(input, reading.lift_m),
      },
    ];
  });
