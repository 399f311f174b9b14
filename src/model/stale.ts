import type { Job } from "../job/schema/job.ts";
import { REMOUNT_ALLOWANCE } from "./constants.ts";
import type { FlowSet, Side } from "./model.ts";

/** Dimensions that become stale with work on the port or a changed flow, unless measured again. */
const WORK_SENSITIVE: readonly string[] = ["pinch", "throat", "sections", "port_volume"];

/** The inherited dimensions that become stale once the port is worked on or its flow changes. */
export const workSensitiveKeys = (inherited: readonly string[]): readonly string[] =>
  inherited.filter((key) => WORK_SENSITIVE.includes(key));

const PORT_WORDS =
  /\b(ports?|bowls?|throats?|short sides?|guides?|runners?|pinch|seats?|valves?|blend(?:ed|ing)?|ported|porting)\b/i;
const SIDE_WORDS: Readonly<Record<Side, RegExp>> = { intake: /\b(intakes?|inlets?)\b/i, exhaust: /\bexhausts?\b/i };

/** Whether the work listed touches the ports of a side. Work on ports that names no side touches both. */
export function hasWorkOnPort(work: Job["work"], side: Side): boolean {
  const other: Side = side === "intake" ? "exhaust" : "intake";
  return Object.entries(work ?? {}).some(([area, items]) =>
    items.some((item) => {
      const named = (text: string) => ({ here: SIDE_WORDS[side].test(text), there: SIDE_WORDS[other].test(text) });
      const [inItem, inArea] = [named(item), named(area)];
      if (inItem.here || (inArea.here && !inItem.there)) return true;
      if (inItem.there || inArea.there) return false;
      return PORT_WORDS.test(area) || PORT_WORDS.test(item);
    }),
  );
}

/** Whether the mean flow of a side over shared lifts has changed by more than the ± of one re-mounting, stated or allowed. */
export function hasFlowChanged(before: FlowSet | undefined, after: FlowSet | undefined, side: Side): boolean {
  const [first, second] = [meansByLift(before, side), meansByLift(after, side)];
  const shared = [...second].flatMap(([lift, flow]) => {
    const earlier = first.get(lift);
    return earlier === undefined ? [] : [{ earlier, flow }];
  });
  if (shared.length === 0) return false;
  const total = (pick: (pair: { earlier: number; flow: number }) => number) =>
    shared.reduce((sum, pair) => sum + pick(pair), 0);
  const change = total((pair) => pair.flow) / total((pair) => pair.earlier) - 1;
  return Math.abs(change) > (after?.bench.remount ?? REMOUNT_ALLOWANCE);
}

/** Mean of flow ÷ √pressure by lift; lifts are keyed to a micrometre. */
function meansByLift(set: FlowSet | undefined, side: Side): ReadonlyMap<number, number> {
  const flows = new Map<number, number[]>();
  for (const run of set?.runs ?? []) {
    for (const { kind, flow, lift, pressure } of run.readings[side]) {
      if (flow === undefined || (kind !== "good" && kind !== "noisy")) continue;
      const key = Math.round(lift * 1e6);
      flows.set(key, [...(flows.get(key) ?? []), flow / Math.sqrt(pressure)]);
    }
  }
  return new Map([...flows].map(([lift, all]) => [lift, all.reduce((sum, one) => sum + one, 0) / all.length]));
}
