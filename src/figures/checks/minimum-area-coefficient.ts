import { over } from "../math/limits.ts";
import { nameOf, placeOf, type SideRule } from "./check-input.ts";

/** Highest plausible coefficient on the minimum area, up to a lift ÷ diameter. */
const LIMITS = [
  { below: 0.12, limit: 1.2 },
  { below: 0.15, limit: 1.05 },
  { below: Number.POSITIVE_INFINITY, limit: 0.97 },
] as const;

/** Flow above what the minimum area passes; low lifts are allowed more, where the seat's real shape counts. @source common practice */
export const minimumAreaCoefficient: SideRule = (scene) =>
  scene.readings.flatMap((reading) => {
    const { discharge_coefficient: coefficient, lift_to_diameter: share } = reading;
    if (coefficient === undefined || share === undefined) return [];
    const { limit } = LIMITS.find(({ below }) => share < below) ?? LIMITS[2];
    if (!over(coefficient, limit)) return [];
    return [
      {
        code: "figures/minimum-area-coefficient",
        message: `${nameOf(scene, reading.lift_m, reading.flow_m3_s)} is ${scene.say.ratio(coefficient)} of the minimum area's ideal flow, above ${scene.say.ratio(limit)}`,
        hint: "check the throat, the seat and the stem as typed, then the lift and the range",
        ...placeOf(scene, reading.lift_m),
      },
    ];
  });
