import { LIFT_BANDS } from "../constants.ts";
import { nameOf, placeOf, type SideRule } from "./check-input.ts";

/** Two neighbouring lifts with one flow, both below 0.22 lift ÷ diameter, where every port still gains. @source common practice */
export const equalNeighbours: SideRule = (scene) => {
  const { sweep, diameter, say } = scene;
  if (diameter === undefined) return [];
  return sweep.good.slice(1).flatMap((right, k) => {
    const left = sweep.good[k]!;
    const same = Math.abs(right.flow - left.flow) <= 1e-9 * Math.abs(left.flow);
    if (!same || !(right.lift / diameter < LIFT_BANDS.high - 1e-9)) return [];
    return [
      {
        code: "figures/equal-neighbours" as const,
        message: `${nameOf(scene, right.lift, right.flow)} is the very flow read at ${say.lift(left.lift)}`,
        hint: "the valve did not move, or a reading was copied down",
        ...placeOf(scene, right.lift),
      },
    ];
  });
};
