import { flowAt } from "../comparison/compared-flows.ts";
import { NO_FLOW } from "../constants.ts";
import { sharedLifts } from "../math/lifts.ts";
import { narrowSweep, type Sweep } from "./sweep.ts";

/**
 * Floor below which no change is claimed: distance of a repeated stage from its first measurement, over the ports full in both and
 * lifts that both have. Where several stages were measured again, the largest counts.
 *
 *     floor = Σ |Q_again − Q| ÷ Σ Q
 *
 * @param sweeps  leading sweeps of one side, repeats among them
 * @returns       floor [1], or undefined when nothing was measured again
 * @source        common practice; absolute distances, so that crossing sweeps do not cancel
 * @example       repeatFloor([]) // undefined
 */
export function repeatFloor(sweeps: readonly Sweep[]): number | undefined {
  const floors = sweeps.flatMap((again) => {
    const first = sweeps.find((sweep) => sweep.source.stage.name === again.source.stage.repeats);
    const distance = first === undefined ? undefined : distanceBetween(first, again);
    return distance === undefined ? [] : [distance];
  });
  return floors.length === 0 ? undefined : Math.max(...floors);
}

function distanceBetween(first: Sweep, again: Sweep): number | undefined {
  const ports = first.ports.filter((port) => again.ports.includes(port));
  const one = narrowSweep(first, ports);
  const two = narrowSweep(again, ports);
  const lifts = sharedLifts([one, two].map((sweep) => sweep.good.map((reading) => reading.lift)));
  let distance = 0;
  let whole = 0;
  for (const lift of lifts) {
    const flow = flowAt(one, lift)!.flow;
    distance += Math.abs(flowAt(two, lift)!.flow - flow);
    whole += flow;
  }
  return whole > NO_FLOW ? distance / whole : undefined;
}
