import { SAME_LIFT } from "../constants.ts";
import type { SideRule } from "./check-input.ts";

/** A cam that lifts the valve further than was read: the last reading stands in for the rest. @source no figure is extrapolated */
export const beyondReadings: SideRule = ({ model, stage, side, sweep, leading, say }) => {
  const net = model.engine?.cams[side]?.netLift;
  const last = sweep.good[sweep.good.length - 1];
  if (!leading || net === undefined || last === undefined || !(net > last.lift + SAME_LIFT)) return [];
  const at = sweep.points.findLast((point) => point.lift === last.lift)?.reading.at;
  return [
    {
      code: "figures/beyond-readings",
      message: `${stage.name}, ${side}: the cam lifts the valve ${say.lift(net)}, but the last reading is at ${say.lift(last.lift)}`,
      hint: "read up to the cam's lift; until then the last reading stands in beyond it",
      ...(at === undefined ? {} : { at }),
    },
  ];
};
