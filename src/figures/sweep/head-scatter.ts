import type { FlowSet, Side, Stage } from "../../model/model.ts";
import { benchKey, isGood, readPoints, type SweepSource } from "./point.ts";
import type { Reference } from "./reading-to-reference.ts";
import { type MountedReading, type Scatter, type ShownScatter, scatterOf, shownScatter } from "./scatter.ts";

/**
 * Scatter of the readings of one head, pooled for each bench and side over all stages, sets and cylinders. The mounts of a
 * stage with `repeats:` are pooled with those of the stage that it repeats.
 *
 *     `scatterOf` of what all readings on one bench and side show
 *
 * @param stages     the stages of the head
 * @param reference  reference test pressure and air
 * @returns          gives the scatter of any sweep of these stages
 * @source           JCGM 100:2008 (GUM), 4.2.4 (pooled estimates)
 * @example          headScatter([], {})({ set: { bench: { remount: 0.012 } }, side: "intake" }).remounting.ratio // 0.006
 */
export function headScatter(
  stages: readonly Stage[],
  reference: Reference,
): (source: Pick<SweepSource, "set" | "side">) => Scatter {
  const known = new Map<string, ShownScatter>();
  return ({ set: { bench }, side }) => {
    const key = `${side} ${benchKey(bench)}`;
    const shown = known.get(key) ?? shownScatter(readingsOn(benchKey(bench), side, stages, reference));
    known.set(key, shown);
    return scatterOf(shown, bench);
  };
}

function readingsOn(bench: string, side: Side, stages: readonly Stage[], reference: Reference): MountedReading[] {
  return stages.flatMap((stage) =>
    stage.sets
      .filter((set) => benchKey(set.bench) === bench)
      .flatMap((set) => {
        const ofSet = [stage.repeats ?? stage.name, set.name, namesakesBefore(set, stage)];
        return readPoints({ head: "", stage, set, side }, reference)
          .filter(isGood)
          .map(({ port, run, lift, flow }) => ({
            port: JSON.stringify([...ofSet, port]),
            cylinder: port,
            mount: JSON.stringify([stage.name, run.mount]),
            lift,
            flow,
          }));
      }),
  );
}

/** How many sets of the stage that stand before this one have its name. */
const namesakesBefore = (set: FlowSet, { sets }: Stage): number =>
  sets.slice(0, sets.indexOf(set)).filter(({ name }) => name === set.name).length;
