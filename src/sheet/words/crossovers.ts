import type { Comparison } from "../../figures/figures.ts";
import type { Display } from "../display.ts";
import { joinWords } from "./join-words.ts";
import { capital } from "./sentence.ts";
import { claimable, isClear } from "./verdict-words.ts";

/** Where the curves of two stages cross, and which is higher on each side of a single crossing. */
export function crossovers(pair: Comparison, display: Display): string | undefined {
  const [first] = pair.crossovers_m;
  if (first === undefined) return undefined;
  const lifts = joinWords(pair.crossovers_m.map((lift) => display.full("lift", lift)));
  const said = `${capital(pair.side)} curves cross at ${lifts}.`;
  if (pair.crossovers_m.length > 1) return said;
  const clear = pair.changes.filter((change) => isClear(claimable(change.verdict, change.uncertainty_m3_s)));
  const above = clear.findLast((change) => change.lift_m > first);
  if (!above) return said;
  const [high, low] = above.change_m3_s > 0 ? ["above", "below"] : ["below", "above"];
  return `${said} The ${label(pair.to)} port flows more ${high} that lift and less ${low} it.`;
}

const label = (end: Comparison["to"]) => (end.label ?? end.stage).toLowerCase();
