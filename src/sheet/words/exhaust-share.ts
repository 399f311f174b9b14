import type { StageFigures } from "../../figures/figures.ts";
import type { Display } from "../display.ts";
import { percent } from "../percent.ts";

/** Exhaust as share of intake, lowest to highest over the lifts that both sides share. */
export function exhaustShare(shares: StageFigures["exhaust_to_intake"], display: Display): string | undefined {
  const [first] = shares;
  if (!first) return undefined;
  const ratios = shares.map((share) => share.ratio);
  const low = percent(Math.min(...ratios), 0);
  const high = percent(Math.max(...ratios), 0);
  const range = `${display.digits("lift", first.lift_m)} to ${display.full("lift", (shares.at(-1) ?? first).lift_m)}`;
  if (shares.length === 1) return `Exhaust as share of intake: ${high} at ${display.full("lift", first.lift_m)}.`;
  return low === high
    ? `Exhaust as share of intake: ${high} from ${range}.`
    : `Exhaust as share of intake: ${low} to ${high} from ${range}.`;
}
