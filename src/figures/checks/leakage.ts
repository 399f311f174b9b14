import { SIDES } from "../../model/model.ts";
import { exceeds } from "../math/limits.ts";
import type { Point } from "../sweep/point.ts";
import { leakageAt } from "../sweep/reading-to-reference.ts";
import type { Sweep } from "../sweep/sweep.ts";
import type { Finding, Formatters, JobRule, SideRule } from "./check-input.ts";

/** Readings smaller than the leakage to be taken off them, in every set of this head and of heads beside it. @source common practice */
export const belowLeakage: JobRule = ({ sweeps, format }) =>
  [...sweeps.stages, ...sweeps.compared, ...sweeps.samples].flatMap(({ sets }) =>
    sets.flatMap((set) =>
      SIDES.flatMap((side) => {
        const below = set[side].points.filter(({ flow }) => flow < 0);
        return below.length === 0 ? [] : [leakageFinding(set[side], below, format)];
      }),
    ),
  );

/** One finding for all readings of a side: it is the leakage that is wrong. */
function leakageFinding({ source: { stage, side, set } }: Sweep, below: readonly Point[], format: Formatters): Finding {
  const { reading, run } = below.reduce((low, one) => (one.flow < low.flow ? one : low));
  const leak = leakageAt(run.bench, side, reading.pressure);
  const others = below.length - 1;
  const more = others === 0 ? "" : `, and so ${others === 1 ? "is one other" : `are ${others} others`}`;
  const [lift, flow] = [
    reading.typed?.lift ?? format.lift(reading.lift),
    reading.typed?.flow ?? format.flow(reading.flow!),
  ];
  return {
    severity: "error",
    code: "figures/below-leakage",
    message: `${stage.name}, ${side} at ${lift}: ${flow} is less than the leakage of ${format.flow(leak)}${more}`,
    hint: "check the leakage, its unit, and the pressure at which it was read",
    subject: { stage: stage.name, side, set },
    cause: `${side} ${run.bench.leakage?.[side]}`,
    ...(reading.at === undefined ? {} : { at: reading.at }),
  };
}

const LIMIT = 0.03;

/** Leakage above 3 % of the lowest reading from which it is taken off. @source common practice */
export const leakageShare: SideRule = ({ stage, side, set, sweep, format }) => {
  const shares = sweep.points.flatMap(({ reading, run }) => {
    const leak = leakageAt(run.bench, side, reading.pressure);
    const good = reading.kind === "good" || reading.kind === "noisy";
    return !good || reading.flow === undefined || !(leak > 0) ? [] : [{ leak, reading, flow: reading.flow }];
  });
  const lowest = shares.reduce<(typeof shares)[number] | undefined>(
    (low, one) => (low === undefined || one.flow < low.flow ? one : low),
    undefined,
  );
  if (lowest === undefined || !exceeds(lowest.leak, LIMIT * lowest.flow)) return [];
  const finding: Finding = {
    code: "figures/leakage",
    message: `${stage.name}, ${side}: a leakage of ${format.flow(lowest.leak)} is more than 3 % of the lowest reading, ${lowest.reading.typed?.flow ?? format.flow(lowest.flow)} at ${lowest.reading.typed?.lift ?? format.lift(lowest.reading.lift)}`,
    hint: "seal the plate, the clay and the other valve, and read the leakage again",
    subject: { stage: stage.name, side, set },
    cause: `${side} ${set.bench.leakage?.[side]}`,
    ...(lowest.reading.at === undefined ? {} : { at: lowest.reading.at }),
  };
  return [finding];
};
