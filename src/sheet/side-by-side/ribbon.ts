import type { ChangeFigures } from "../../figures/figures.ts";
import type { Side } from "../../model/model.ts";
import { isClear } from "../../model/verdict.ts";
import { sameLift } from "../../units/same-lift.ts";
import type { RibbonStretch } from "../content.ts";
import type { Context } from "../context.ts";
import { findAtLift } from "../lifts.ts";
import { capitalize, joinWords } from "../words/text.ts";
import { claimableVerdict, verdictWords } from "../words/verdicts.ts";
import { flowsAt, pairOf, type SideHead } from "./heads.ts";

/** Which head is clearly higher than every other, by its place; none told apart; or not judged. */
type Highest = number | "within" | "not judged";

/** Neighbouring lifts of which one thing holds: from the first to the last of them, and the stretch halfway to the next [m]. */
export type RibbonRun = {
  readonly highest: Highest;
  readonly first: number;
  readonly last: number;
  readonly from: number;
  readonly to: number;
};

/** Runs of lifts, the lowest first; none where the heads share no lift. */
export function ribbonRuns(context: Context, heads: readonly SideHead[], side: Side): readonly RibbonRun[] {
  const lifts = liftsRead(context, heads, side);
  const runs: { highest: Highest; first: number; last: number; from: number; to: number }[] = [];
  for (const [i, lift] of lifts.entries()) {
    const half = (other: number | undefined) => (other === undefined ? lift : (lift + other) / 2);
    const highest = highestAt(context, heads, side, lift);
    const open = runs.at(-1);
    if (open?.highest === highest) Object.assign(open, { last: lift, to: half(lifts[i + 1]) });
    else runs.push({ highest, first: lift, last: lift, from: half(lifts[i - 1]), to: half(lifts[i + 1]) });
  }
  return runs;
}

/** Lifts at which a change from or to the first head was read, ascending. */
function liftsRead(context: Context, [first, ...others]: readonly SideHead[], side: Side): readonly number[] {
  const all = others.flatMap((head) =>
    (pairOf(context, first!, head, side)?.changes ?? []).flatMap((change) =>
      change.interpolated ? [] : [change.lift_m],
    ),
  );
  return all.toSorted((a, b) => a - b).filter((lift, i, sorted) => i === 0 || !sameLift(lift, sorted[i - 1]!));
}

/** The head that is clearly higher than each other at a lift. A head that was not read there leaves it open. */
function highestAt(context: Context, heads: readonly SideHead[], side: Side, lift: number): Highest {
  const changeOf = (earlier: number, later: number): ChangeFigures | undefined =>
    findAtLift(pairOf(context, heads[earlier]!, heads[later]!, side)?.changes ?? [], lift);
  const against = heads.map((_, i) => (i === 0 ? undefined : changeOf(0, i)));
  const known = against.slice(1);
  if (known.some((change) => change === undefined)) return "not judged";
  const flows = against.map((change) => (change ? flowsAt(change).later : flowsAt(known[0]!).earlier));
  const best = flows.indexOf(Math.max(...flows));
  const verdicts = heads.flatMap((_, other) => {
    if (other === best) return [];
    const change = changeOf(Math.min(best, other), Math.max(best, other));
    if (!change) return [{ judged: false, wins: false }];
    const verdict = claimableVerdict(change.verdict, change.uncertainty_m3_s);
    const wins = isClear(verdict) && change.change_m3_s > 0 === best < other;
    return [{ judged: verdict !== "too few repeats", wins }];
  });
  if (verdicts.some(({ judged }) => !judged)) return "not judged";
  return verdicts.every(({ wins }) => wins) ? best : "within";
}

/** The ribbon under a plot, in the sheet's units. */
export const ribbonStretches = (
  { display }: Context,
  heads: readonly SideHead[],
  runs: readonly RibbonRun[],
): readonly RibbonStretch[] =>
  runs.flatMap(({ highest, from, to }): RibbonStretch[] => {
    if (highest === "not judged" || to <= from) return [];
    const place = { from: display.number("lift", from), to: display.number("lift", to) };
    if (highest === "within") return [{ ...place, text: "within ±", short: "±", look: "zone" }];
    const { letter } = heads[highest]!;
    return [{ ...place, text: `${letter} clearly higher`, short: letter, look: highest === 0 ? "accent" : "outline" }];
  });

/** More changes of lead than this are left to the bar. */
const MOST_RUNS = 3;

/** Who is clearly higher where, in a sentence; it uses the lifts of the ribbon, and claims nothing between them. */
export function highestWords(
  context: Context,
  heads: readonly SideHead[],
  side: Side,
  runs: readonly RibbonRun[],
): string | undefined {
  if (runs.length === 0) return undefined;
  const name = capitalize(side);
  const clear = runs.filter(({ highest }) => typeof highest === "number");
  if (clear.length === 0)
    return runs.some(({ highest }) => highest === "within")
      ? `${name}: no difference found.`
      : `${name}: not judged, ${whyNotJudged(context, heads, side)}.`;
  if (clear.length > MOST_RUNS) return `${name}: the higher head changes more than twice, see the bar.`;
  const { display } = context;
  const [lowest, highest] = [runs[0]!.first, runs.at(-1)!.last];
  const than = heads.length > 2 ? " than the others" : "";
  const said = clear.map((run, i) => {
    const { first, last } = run;
    const of = i === 0 ? " of lift" : "";
    const lift = (value: number) => display.full("lift", value);
    const where =
      first === lowest && last === highest
        ? "at every lift read"
        : first === lowest
          ? `up to ${lift(last)}${of}`
          : last === highest
            ? `from ${lift(first)}${of}`
            : sameLift(first, last)
              ? `at ${lift(first)}${of}`
              : `from ${display.digits("lift", first)} to ${lift(last)}${of}`;
    return `head ${heads[run.highest as number]!.letter} ${i === 0 ? "flows " : ""}clearly more${i === 0 ? than : ""} ${where}`;
  });
  return `${name}: ${said.join(", ")}.`;
}

/** Why no verdict stands: the comparisons' own words, each once. */
function whyNotJudged(context: Context, [first, ...others]: readonly SideHead[], side: Side): string {
  const words = others.map((head) => {
    const pair = pairOf(context, first!, head, side);
    if (!pair || pair.not_compared) return "no port in both";
    return verdictWords(undefined, pair).text.replace(/^no verdict, /, "");
  });
  return joinWords([...new Set(words)]);
}
