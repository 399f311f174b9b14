import { describe, expect, test } from "vitest";
import type { ChangeFigures, Comparison, SideFigures, Verdict } from "../../src/figures/figures.ts";
import { createDisplay } from "../../src/sheet/display.ts";
import { averageChangeWords, averageVerdictWords } from "../../src/sheet/words/average-change.ts";
import { budgetWords, confidenceWords } from "../../src/sheet/words/confidence.ts";
import { crossingWords, hiddenLossWords, loneVerdictWords, unclaimedWords } from "../../src/sheet/words/lift-claims.ts";
import { mayPrint, verdictWords } from "../../src/sheet/words/verdicts.ts";
import { modelOf } from "../figures/model-fixture.ts";

const display = createDisplay(modelOf({ lifts: "in" }).units, [0.00254], 343);
const plain = (text: string | undefined) => text?.replaceAll("\u00a0", " ");
const INCH = 0.0254;

const pair = (more: Partial<Comparison> = {}): Comparison => ({
  from: { stage: "As received" },
  to: { stage: "Finished" },
  side: "intake",
  like_for_like: true,
  differences: [],
  mean_change_ratio: 0.041,
  mean_change_uncertainty_ratio: 0.02,
  changes: [],
  crossovers_m: [],
  ...more,
});
type Withheld = NonNullable<Comparison["verdict_withheld"]>;
const average = (more: Partial<Comparison>) => plain(averageChangeWords(pair(more)));

describe("an average that is not claimed", () => {
  test("within repeatability says how large a change the readings leave open, rounded up", () => {
    const none = {
      mean_change_ratio: 0.008,
      mean_change_verdict: "within repeatability",
      bound_ratio: 0.02801,
    } as const;
    expect(average(none)).toBe("Intake flow did not clearly change: any change of the average is smaller than 2.9 %.");
    expect(plain(averageVerdictWords(pair(none))?.text)).toBe("within repeatability, smaller than 2.9 %");
    expect(plain(averageVerdictWords(pair({ ...none, bound_ratio: 0.028 }))?.text)).toContain("smaller than 2.8 %");
  });

  test("conditions that differ keep the numbers and lose the verdict", () => {
    const withheld = { verdict_withheld: "conditions" } as const;
    expect(average(withheld)).toBe(
      "Intake flow: 4.1 % more (± 2.0 %) on average; conditions differ, so no verdict is given.",
    );
    expect(average({ ...withheld, mean_change_ratio: -0.041 })).toContain("4.1 % less (± 2.0 %)");
    expect(mayPrint(undefined, 0.02, withheld)).toBe(true);
  });

  test.each<[Withheld, string, string]>([
    [
      "check plate",
      "Intake: the bench's check plate was more than 2 % off, so no verdict is given.",
      "no verdict, check plate off",
    ],
    [
      "two benches",
      "Intake: flowed on two benches whose accuracy is not stated, so no verdict is given.",
      "no verdict, two benches",
    ],
    [
      "two ranges",
      "Intake: read on two ranges of a bench whose accuracy is not stated, so no verdict is given.",
      "no verdict, two ranges",
    ],
    ["flowed once", "Intake: flowed once each time: not judged.", "flowed once each time: not judged"],
  ])("%s says so, and prints no number", (verdict_withheld, sentence, cell) => {
    expect(average({ verdict_withheld })).toBe(sentence);
    expect(averageVerdictWords(pair({ verdict_withheld }))).toEqual({ text: cell, mark: "unknown" });
    expect(mayPrint(undefined, 0.02, { verdict_withheld })).toBe(false);
  });

  test("without repeatability on one of the two: too few repeats", () =>
    expect(average({ mean_change_verdict: "too few repeats", mean_change_uncertainty_ratio: undefined })).toBe(
      "Intake flow has too few repeats to say whether it changed.",
    ));

  test("a change that unlike lifts or unsteady readings make: not claimed, for that reason", () => {
    const fragile = pair({ mean_change_verdict: "too few repeats" });
    expect(averageChangeWords(fragile)).toBe(
      "Intake flow: no change of the average is claimed. It does not hold at like lifts with steady readings.",
    );
    expect(averageVerdictWords(fragile)!.text).toBe("not claimed: not at like, steady readings");
  });

  test("a lift that is judged keeps its verdict where only others are withheld", () => {
    expect(verdictWords("clear gain", { verdict_withheld: "two ranges" }).text).toBe("clear gain");
    expect(verdictWords(undefined, { verdict_withheld: "two ranges" }).text).toBe("no verdict, two ranges");
  });
});

/** Changes at tenths of an inch, in percent of a flow of 1; ± 1 %. */
const changes = (...percents: readonly (readonly [number, Verdict])[]): ChangeFigures[] =>
  percents.map(([percent, verdict], i) => ({
    lift_m: ((i + 1) / 10) * INCH,
    from_m3_s: 1,
    change_m3_s: percent / 100,
    change_ratio: percent / 100,
    uncertainty_m3_s: 0.01,
    verdict,
  }));
const HIGH = [3, "clearly higher"] as const;
const LOW = [-3, "clearly lower"] as const;
const NONE = [0.5, "within repeatability"] as const;
const crossing = (...percents: readonly (readonly [number, Verdict])[]) =>
  plain(crossingWords(pair({ changes: changes(...percents) }), display));

describe("where two heads cross", () => {
  test("is said from the lifts that are clear", () => {
    expect(crossing(HIGH, HIGH, NONE, LOW, LOW)).toBe(
      "Intake: clearly higher up to 0.200 in, clearly lower from 0.400 in.",
    );
    expect(crossing(LOW, NONE, HIGH)).toBe("Intake: clearly lower up to 0.100 in, clearly higher from 0.300 in.");
  });
  test("no end is said to be clear that is not, and no lift between", () => {
    expect(crossing(NONE, HIGH, HIGH, HIGH, LOW, NONE)).toBe(
      "Intake: clearly higher from 0.200 to 0.400 in, clearly lower at 0.500 in.",
    );
    expect(crossing(HIGH, NONE, HIGH, LOW)).toBe(
      "Intake: clearly higher at 0.100 and 0.300 in, clearly lower from 0.400 in.",
    );
  });
  test("is not said of a head that is only higher, or of interpolated lifts", () => {
    expect(crossing(HIGH, NONE, HIGH)).toBeUndefined();
    const between = changes(HIGH, LOW).map((change) => ({ ...change, interpolated: true as const }));
    expect(crossingWords(pair({ changes: between }), display)).toBeUndefined();
  });
});

test("a loss that the average hides is named by its lifts", () => {
  const lost = changes([3, "clear gain"], [-2, "clear loss"], [-2, "clear loss"], [-2, "clear loss"]);
  const words = (verdict: Verdict) =>
    plain(hiddenLossWords(pair({ changes: lost, mean_change_verdict: verdict }), display));
  expect(words("within repeatability")).toBe("Intake from 0.200 to 0.400 in: a clear loss.");
  expect(words("clear loss")).toBeUndefined();
});

describe("a lift beyond its ± that is not claimed", () => {
  const beyond = [1.2, "within repeatability"] as const;
  const words = (list: ChangeFigures[], floor?: number) =>
    plain(unclaimedWords(pair(floor ? { floor_ratio: floor } : {}), list));
  test("is counted in a note", () => {
    expect(words(changes(NONE, beyond))).toBe(
      "Intake: 1 lift beyond its ± is not claimed; of many, one may be so by chance.",
    );
    expect(words(changes(beyond, beyond))).toContain("2 lifts beyond their ± are not claimed");
  });
  test("is not called within its ± where it stands alone", () => {
    const [at] = changes(beyond);
    const verdict = "within repeatability" as const;
    expect(loneVerdictWords({ change: at!, verdict }, pair()).text).toBe("not claimed");
    expect(loneVerdictWords({ change: changes(NONE)[0]!, verdict }, pair()).text).toBe("within repeatability");
  });
  test("between readings says what is missing", () => {
    const [at] = changes(beyond);
    expect(words([{ ...at!, interpolated: true }])).toBe(
      "Intake, between readings: 1 lift beyond its ± is not claimed; not between two clear changes.",
    );
  });
  test("is none where it is claimed, within its ±, or under the floor", () => {
    expect(words(changes(NONE, HIGH))).toBeUndefined();
    expect(words(changes(beyond), 0.02)).toBeUndefined();
  });
});

describe("what the ± rests on", () => {
  const bench = modelOf({ stages: [{ runs: [{ rows: [[1, 1]] }] }] }).stages[0]!.sets[0]!.bench;
  type Sources = NonNullable<SideFigures["sources"]>;
  const sources = (
    repeatability: Sources["repeatability"],
    from: Sources["remounting"]["from"] = "allowance",
    ratio = 0.01,
  ): Sources => ({ ...(repeatability ? { repeatability } : {}), remounting: { from, ratio } });
  const words = (intake: Sources | undefined, exhaust = intake, more = {}) =>
    plain(
      confidenceWords(
        { ...bench, ...more },
        [
          { side: "intake", sources: intake },
          { side: "exhaust", sources: exhaust },
        ],
        display,
        true,
      ).join(" "),
    );

  test("an allowance is never said to be measured", () =>
    expect(words(sources({ from: "repeats", ratio: 0.004, dof: 12 }))).toContain(
      "Taking the head off and on adds ± 2.0 %: allowed for, not measured here.",
    ));
  test("own mounts and stated values say which they are", () => {
    const repeats = { from: "repeats", ratio: 0.004, dof: 12 } as const;
    expect(words(sources(repeats, "own", 0.006))).toContain("adds ± 1.2 %, from our own mounts.");
    expect(words(sources(repeats, "stated", 0.007))).toContain("adds ± 1.4 %, as stated.");
  });
  test.each([
    [
      sources({ from: "repeats", ratio: 0.004, dof: 12 }),
      {},
      "Repeatability, from our own repeats of these readings: ± 0.8 %.",
    ],
    [sources({ from: "mounts", ratio: 0.005, dof: 5 }), {}, "from flowing it on several mounts: ± 1.0 %."],
    [
      sources({ from: "stated", ratio: 0.003 }),
      { repeatability: { kind: "expanded", value: 0.006 } },
      "Repeatability, as stated: ± 0.6 %.",
    ],
    [
      sources({ from: "stated", ratio: 0.005, dof: 4 }),
      { repeatability: { kind: "range", spread: 0.012, of: 5 } },
      "as stated: 5 repeats lay within 1.2 %",
    ],
    [sources(undefined), {}, "Repeatability was neither measured nor stated, so no change is claimed."],
  ])("names the repeatability used %#", (found, stated, said) => expect(words(found, found, stated)).toContain(said));
  test("sides that differ are named, those that do not are not", () => {
    const two = words(
      sources({ from: "repeats", ratio: 0.004, dof: 12 }),
      sources({ from: "repeats", ratio: 0.006, dof: 12 }),
    );
    expect(two).toContain(
      "Repeatability, from our own repeats of these readings: ± 0.8 % (intake) and ± 1.2 % (exhaust).",
    );
    const repeats = { from: "repeats", ratio: 0.004, dof: 12 } as const;
    const unlike = words(sources(repeats, "own", 0.006), sources(repeats, "allowance"));
    expect(unlike).toContain("Intake: Taking the head off and on adds ± 1.2 %, from our own mounts.");
    expect(unlike).toContain("Exhaust: Taking the head off and on adds ± 2.0 %: allowed for, not measured here.");
    expect(two).not.toMatch(/(Intake|Exhaust): Taking the head/);
  });
  test("accuracy is part of each reading's ±, and cancels in a change but for its share of the difference", () => {
    expect(words(sources(undefined), undefined, { accuracy: 0.015 })).toContain(
      "Bench accuracy is ± 1.5 % of each reading. In a change on one bench and range it cancels, but for ± 1.5 % of the difference.",
    );
    expect(words(sources(undefined))).toContain("Bench accuracy was not stated; in a percentage of change");
  });
  test("where nothing is known of repeatability there is no ± to explain", () =>
    expect(words(sources(undefined))).not.toMatch(/Each ±|Taking the head/));
});

test("the budget of the average is one line, largest part first, without what rounds to nothing", () => {
  const budget = (remounting: number, repeats: number) => ({
    u: 0.01,
    k: 2,
    parts: { remounting, repeats, lift_setting: 0.13, leakage: 0.004 },
  });
  const line = (...pairs: Comparison[]) => plain(budgetWords(pairs));
  const judged = { mean_change_verdict: "clear gain" } as const;
  const intake = pair({ ...judged, mean_change_budget: budget(0.73, 0.136) });
  const exhaust = { ...pair({ ...judged, mean_change_budget: budget(0.3, 0.566) }), side: "exhaust" as const };
  expect(line(intake)).toBe(
    "Of the ± of the average intake change 73 % is re-mounting, 14 % repeats, 13 % lift setting. These are shares of its square.",
  );
  expect(line(intake, { ...intake, side: "exhaust" })).toMatch(/^Of the ± of the average changes 73 % is/);
  expect(line(intake, exhaust)).toContain(
    "lift setting. Of the ± of the average exhaust change 57 % is repeats, 30 % re-mounting",
  );
  expect(line(pair())).toBeUndefined();
  expect(line({ ...intake, mean_change_verdict: undefined, verdict_withheld: "two benches" })).toBeUndefined();
});
