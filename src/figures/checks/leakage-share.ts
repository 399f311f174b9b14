import { over } from "../math/limits.ts";
import { leakageAt } from "../sweep/reading-to-reference.ts";
import type { SideRule } from "./check-input.ts";
import type { Finding } from "./finding.ts";

const LIMIT = 0.03;

/** Leakage above 3 % of the lowest reading from which it is taken off. @source common practice */
export const leakageShare: SideRule = ({ stage, side, sweep, say }) => {
  const shares = sweep.points.flatMap(({ reading, run }) => {
    const leak = leakageAt(run.bench, side, reading.pressure);
    const good = reading.kind === "good" || reading.kind === "noisy";
    return !good || reading.flow === undefined || !(leak > 0) ? [] : [{ leak, reading, flow: reading.flow }];
  });
  const lowest = shares.reduce<(typeof shares)[number] | undefined>(
    (low, one) => (low === undefined || one.flow < low.flow ? one : low),
    undefined,
  );
  if (lowest === undefined || !over(lowest.leak, LIMIT * lowest.flow)) return [];
  const finding: Finding = {
    code: "figures/leakage",
    message: `${stage.name}, ${side}: a leakage of ${say.flow(lowest.leak)} is more than 3 % of the lowest reading, ${say.flow(lowest.flow)} at ${say.lift(lowest.reading.lift)}`,
    hint: "seal the plate, the clay and the other valve, and read the leakage again",
    ...(lowest.reading.at === undefined ? {} : { at: lowest.reading.at }),
  };
  return [finding];
};
