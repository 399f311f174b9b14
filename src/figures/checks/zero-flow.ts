import { NO_FLOW } from "../constants.ts";
import { over } from "../math/limits.ts";
import type { MeanReading } from "../sweep/sweep.ts";
import { nameOf, placeOf, type SideRule } from "./check-input.ts";

const LIMIT = 0.008 * 0.0254;
/** Lift ÷ diameter up to which flow follows lift. */
const STRAIGHT = 0.13;

/** First two readings whose line misses zero flow by more than 0.008 in of lift. A third reading must agree, since a stock port bends early. @source common practice */
export const zeroFlow: SideRule = (scene) => {
  const { sweep, diameter, say } = scene;
  const [first, second, third] = sweep.good;
  if (first === undefined || second === undefined || diameter === undefined) return [];
  if (over(second.lift / diameter, STRAIGHT) || !(second.flow - first.flow > NO_FLOW)) return [];
  const line = first.lift - (first.flow * (second.lift - first.lift)) / (second.flow - first.flow);
  if (!over(Math.abs(line), LIMIT)) return [];
  const bent = third === undefined ? line : parabolaZero(first, second, third, line);
  if (bent === undefined || bent * line < 0 || !over(Math.abs(bent), LIMIT)) return [];
  return [
    {
      code: "figures/zero-flow",
      message: `${nameOf(scene, first.lift, first.flow)} and the next reading meet zero flow at ${say.lift(line)} of lift, not at zero`,
      hint:
        line > 0
          ? "dial zeroed with the valve off its seat, or too much leakage taken off"
          : "dial zero, or a leak that was not taken off",
      ...placeOf(scene, first.lift),
    },
  ];
};

/** Where the parabola through three readings has no flow, near a first guess; undefined where it has no such place. */
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
