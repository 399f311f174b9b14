import { SAME_LIFT } from "../../units/same-lift.ts";
import { LIFT_BANDS, NO_FLOW } from "../constants.ts";
import { exceeds } from "../math/limits.ts";
import type { MeanReading } from "../sweep/sweep.ts";
import { readingName, readingPlace, type SideRule } from "./check-input.ts";

const LIMIT = 0.008 * 0.0254;
/** Lift ÷ diameter up to which flow follows lift. */
const STRAIGHT = 0.13;

/** First two readings whose line misses zero flow by more than 0.008 in of lift. A third reading must agree, since a stock port bends early. @source common practice */
export const zeroFlow: SideRule = (input) => {
  const { sweep, diameter, format } = input;
  const [first, second, third] = sweep.good;
  if (first === undefined || second === undefined || diameter === undefined) return [];
  if (exceeds(second.lift / diameter, STRAIGHT) || !(second.flow - first.flow > NO_FLOW)) return [];
  const line = first.lift - (first.flow * (second.lift - first.lift)) / (second.flow - first.flow);
  if (!exceeds(Math.abs(line), LIMIT)) return [];
  const bent = third === undefined ? line : parabolaZero(first, second, third, line);
  if (bent === undefined || bent * line < 0 || !exceeds(Math.abs(bent), LIMIT)) return [];
  return [
    {
      code: "figures/zero-flow",
      message: `${readingName(input, first.lift, first.flow)} and the next reading meet zero flow at ${format.lift(line)} of lift, not at zero`,
      hint:
        line > 0
          ? "dial zeroed with the valve off its seat, or too much leakage taken off"
          : "dial zero, or a leak that was not taken off",
      ...readingPlace(input, first.lift),
    },
  ];
};

/** The lift near `guess` at which the parabola through three readings is zero; undefined if it has no real root. */
function parabolaZero(a: MeanReading, b: MeanReading, c: MeanReading, guess: number): number | undefined {
  const ab = (b.flow - a.flow) / (b.lift - a.lift);
  const bend = ((c.flow - b.flow) / (c.lift - b.lift) - ab) / (c.lift - a.lift);
  let lift = guess;
  for (let step = 0; step < 20; step++) {
    const flow = a.flow + (lift - a.lift) * (ab + bend * (lift - b.lift));
    const slope = ab + bend * (2 * lift - a.lift - b.lift);
    if (!(slope > 0)) return undefined;
    lift -= flow / slope;
  }
  return Number.isFinite(lift) ? lift : undefined;
}

/** Two neighbouring lifts with one flow, both below 0.22 lift ÷ diameter, where every port still gains. @source common practice */
export const equalNeighbours: SideRule = (input) => {
  const { sweep, diameter, format } = input;
  if (diameter === undefined) return [];
  return sweep.good.slice(1).flatMap((right, k) => {
    const left = sweep.good[k]!;
    const same = Math.abs(right.flow - left.flow) <= 1e-9 * Math.abs(left.flow);
    if (!same || !(right.lift / diameter < LIFT_BANDS.high - 1e-9)) return [];
    return [
      {
        code: "figures/equal-neighbours" as const,
        message: `${readingName(input, right.lift, right.flow)} is the very flow read at ${format.lift(left.lift)}`,
        hint: "the valve did not move, or a reading was copied down",
        ...readingPlace(input, right.lift),
      },
    ];
  });
};

/** The cam lifts the valve beyond the highest lift read, whose reading is then used above it. @source common practice */
export const beyondReadings: SideRule = ({ model, stage, side, sweep, leading, format }) => {
  const net = model.engine?.cams[side]?.netLift;
  const last = sweep.good[sweep.good.length - 1];
  if (!leading || net === undefined || last === undefined || !(net > last.lift + SAME_LIFT)) return [];
  const at = sweep.points.findLast((point) => point.lift === last.lift)?.reading;
  const lift = at?.typed?.lift ?? format.lift(last.lift);
  return [
    {
      code: "figures/beyond-readings",
      message: `${stage.name}, ${side}: the cam lifts the valve ${format.lift(net)}, but the last reading is at ${lift}`,
      hint: "read up to the cam's lift; until then the last reading stands in beyond it",
      subject: { stage: stage.name, side },
      cause: `${side} ${lift}`,
      ...(at?.at === undefined ? {} : { at: at.at }),
    },
  ];
};
