import type { Job } from "../job/schema/job.ts";
import type { Side } from "./model.ts";

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
