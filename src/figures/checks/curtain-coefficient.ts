import { over } from "../math/limits.ts";
import { nameOf, placeOf, type SideRule } from "./check-input.ts";
import type { Finding } from "./finding.ts";

const ODD = 0.88;
const IMPOSSIBLE = 1;
/** Below this lift ÷ diameter a hair of lift error makes any coefficient. */
const TRUSTED_LIFT = 0.03;

/** Flow above what a curtain passes: odd above 0.88 of its ideal, refused above all of it. @source common practice */
export const curtainCoefficient: SideRule = (scene) =>
  scene.readings.flatMap((reading): Finding[] => {
    const { curtain_coefficient: coefficient, lift_to_diameter: share, lift_m, flow_m3_s } = reading;
    if (coefficient === undefined || !over(coefficient, ODD)) return [];
    const name = nameOf(scene, lift_m, flow_m3_s);
    const at = placeOf(scene, lift_m);
    if (over(coefficient, IMPOSSIBLE) && over(share!, TRUSTED_LIFT)) {
      return [
        {
          severity: "error",
          code: "figures/curtain-over-ideal",
          message: `${name} is ${scene.say.ratio(coefficient)} of all that the curtain could ever pass`,
          hint: "check the lift, the flow, the valve diameter and the number of valves, and the range read on the bench",
          ...at,
        },
      ];
    }
    return [
      {
        code: "figures/curtain-coefficient",
        message: `${name} is ${scene.say.ratio(coefficient)} of the curtain's ideal flow, more than a valve passes`,
        hint: "lift set too high, a wrong range, a leak, or a valve typed too small",
        ...at,
      },
    ];
  });
