import { expect, test } from "vitest";
import type { Comparison, Verdict } from "../../src/figures/figures.ts";
import type { Context } from "../../src/sheet/context.ts";
import { changeLead } from "../../src/sheet/words/lead.ts";

type Change = { readonly verdict?: Verdict; readonly by: number; readonly plusMinus?: number };

const pair = (side: "intake" | "exhaust", { verdict, by, plusMinus }: Change, more: Partial<Comparison> = {}) => ({
  from: { stage: "As received" },
  to: { stage: "Finished" },
  side,
  like_for_like: true,
  differences: [],
  mean_change_ratio: by,
  ...(verdict === undefined ? {} : { mean_change_verdict: verdict }),
  ...(plusMinus === undefined ? {} : { mean_change_uncertainty_ratio: plusMinus }),
  changes: [],
  crossovers_m: [],
  ...more,
});

/** The lead of a sheet of two stages with these comparisons, without a cam. */
const leadOf = (...comparisons: readonly Comparison[]) => {
  const stages = ["As received", "Finished"].map((name) => ({ name, repeat: false }));
  const context = { sides: ["intake", "exhaust"], stages, figures: { comparisons }, model: {} };
  return changeLead(context as unknown as Context)?.replaceAll("\u00a0", " ");
};

const gain = (by: number): Change => ({ verdict: "clear gain", by, plusMinus: 0.02 });
const loss = (by: number): Change => ({ verdict: "clear loss", by: -by, plusMinus: 0.02 });
const within = (by: number): Change => ({ verdict: "within repeatability", by, plusMinus: 0.015 });
const few: Change = { verdict: "too few repeats", by: 0.2 };

test.each([
  [
    "gain",
    [gain(0.12), gain(0.09)],
    "Intake flow is up 12.0 % (± 2.0) and exhaust flow 9.0 % (± 2.0) on average over the lifts read. Both are clear gains.",
  ],
  [
    "loss",
    [loss(0.05), loss(0.04)],
    "Intake flow is down 5.0 % (± 2.0) and exhaust flow 4.0 % (± 2.0) on average over the lifts read. Both are clear losses.",
  ],
  [
    "a loss stands first",
    [gain(0.12), loss(0.05)],
    "Exhaust flow is down 5.0 % (± 2.0), a clear loss, and intake flow up 12.0 % (± 2.0), a clear gain, on average over the lifts read.",
  ],
  [
    "within",
    [within(0.005), within(-0.01)],
    "On average any change of flow is smaller than 2.0 % on the intake and 2.5 % on the exhaust.",
  ],
  [
    "mixed",
    [gain(0.12), within(0.005)],
    "Intake flow is up 12.0 % (± 2.0) on average over the lifts read, a clear gain. On average any change of exhaust flow is smaller than 2.0 %.",
  ],
  ["too few", [few, few], "Flow has too few repeats to say whether it changed."],
  [
    "one with too few",
    [gain(0.12), few],
    "Intake flow is up 12.0 % (± 2.0) on average over the lifts read, a clear gain. Exhaust flow has too few repeats to say whether it changed.",
  ],
] as const)("lead of %s", (_, [intake, exhaust], words) =>
  expect(leadOf(pair("intake", intake), pair("exhaust", exhaust))).toBe(words),
);

test("a verdict that is withheld, and unlike conditions, take the place of every number", () => {
  const unlike = { like_for_like: false, differences: ["pressure 10 and 28 inH₂O"], verdict_withheld: "conditions" };
  const said = leadOf(pair("intake", few, unlike as Partial<Comparison>));
  expect(said).toBe("Intake: conditions differ, so this is not like for like. Pressure 10 and 28 inH₂O.");
  expect(leadOf(pair("intake", { by: 0.2, verdict: "clear gain" }))).not.toMatch(/20|%/);
  const apart = leadOf(
    pair("intake", few, { not_compared: "no port in both", like_for_like: false, differences: ["other ports"] }),
  );
  expect(apart).toBe("Intake: not compared: other ports.");
});

test("of stages that were not compared nothing is said", () => expect(leadOf()).toBeUndefined());
