import { describe, expect, test } from "vitest";
import type { Comparison, SideFigures, Verdict } from "../../src/figures/figures.ts";
import { createDisplay } from "../../src/sheet/display.ts";
import { averageChangeWords } from "../../src/sheet/words/average-change.ts";
import {
  checkResultWords,
  differenceWords,
  pairDifferenceWords,
  pressureConversionWords,
} from "../../src/sheet/words/conditions.ts";
import {
  afterPeakWords,
  crossoverWords,
  exhaustShareWords,
  flatSpotWords,
  peakWords,
} from "../../src/sheet/words/curves.ts";
import { dateSpan, dateWords, monthSpan } from "../../src/sheet/words/dates.ts";
import { airPowerWords } from "../../src/sheet/words/engine.ts";
import { portsWords, sidePortsWords, typicalWords } from "../../src/sheet/words/identity.ts";
import { joinWords, lowercaseFirst, toSentence } from "../../src/sheet/words/text.ts";
import { claimableVerdict } from "../../src/sheet/words/verdicts.ts";
import { modelOf } from "../figures/model-fixture.ts";

const display = createDisplay(modelOf({ lifts: "in" }).units, [0.00254], 343);
const plain = (text: string | undefined) => text?.replaceAll("\u00a0", " ");
const INCH = 0.0254;

const pair = (verdict: Verdict, change: number, plusMinus?: number, more: Partial<Comparison> = {}): Comparison => ({
  from: { stage: "As received" },
  to: { stage: "Finished" },
  side: "intake",
  like_for_like: true,
  differences: [],
  mean_change_ratio: change,
  mean_change_verdict: verdict,
  ...(plusMinus === undefined ? {} : { mean_change_uncertainty_ratio: plusMinus }),
  changes: [],
  crossovers_m: [],
  ...more,
});

describe("average change", () => {
  test.each([
    [pair("clear gain", 0.12, 0.021), "Intake flow: 12.0 % up (± 2.1 %) on average, a clear gain."],
    [pair("clear loss", -0.05, 0.02), "Intake flow: 5.0 % down (± 2.0 %) on average, a clear loss."],
    [
      pair("within repeatability", 0.009, 0.02),
      "Intake flow did not clearly change: the average is within repeatability.",
    ],
    [pair("too few repeats", 0.12), "Intake flow has too few repeats to say whether it changed."],
  ])("says %#", (comparison, words) => expect(plain(averageChangeWords(comparison))).toBe(words));

  test("a verdict without its ± is not claimed, and its number not printed", () => {
    expect(averageChangeWords(pair("clear gain", 0.12))).toBe(
      "Intake flow has too few repeats to say whether it changed.",
    );
  });
  test("no words for a change that was not computed", () => {
    const { mean_change_ratio: _, ...none } = pair("clear gain", 0.1, 0.02);
    expect(averageChangeWords(none)).toBeUndefined();
  });
});

test("claimableVerdict keeps a verdict only with its ±", () => {
  expect(claimableVerdict("clear loss", 0.1)).toBe("clear loss");
  expect(claimableVerdict("clear loss", undefined)).toBe("too few repeats");
});

test("unlike conditions are said, one sentence each", () => {
  const unlike = pair("clear gain", 0.1, 0.02, {
    like_for_like: false,
    differences: ["entry none against clay radius"],
  });
  expect(pairDifferenceWords(unlike)).toBe(
    "Intake: conditions differ, so this is not like for like. Entry none against clay radius.",
  );
  expect(pairDifferenceWords(pair("clear gain", 0.1, 0.02))).toBeUndefined();
});

test("unlike conditions of both sides are said once where they are the same, and apart where they are not", () => {
  const unlike = (side: "intake" | "exhaust", difference: string) => ({
    ...pair("clear gain", 0.1, 0.02, { like_for_like: false, differences: [difference] }),
    side,
  });
  const both = [unlike("intake", "another bench"), unlike("exhaust", "another bench")];
  expect(differenceWords(both)).toEqual([
    "Intake and exhaust: conditions differ, so this is not like for like. Another bench.",
  ]);
  expect(differenceWords([...both.slice(0, 1), unlike("exhaust", "pipe none against 38 mm")])).toEqual([
    "Intake: conditions differ, so this is not like for like. Another bench.",
    "Exhaust: conditions differ, so this is not like for like. Pipe none against 38 mm.",
  ]);
  expect(differenceWords([pair("clear gain", 0.1, 0.02)])).toEqual([]);
});

describe("the curve's shape", () => {
  const side = (more: Partial<SideFigures>) =>
    ({ peak: { lift_m: 0.6 * INCH, flow_m3_s: 0.12 }, flat_spots: [], ...more }) as unknown as SideFigures;
  const falling = { to_lift_m: 0.7 * INCH, change: -0.052, uncertainty: 0.01, verdict: "clear loss" } as const;

  test("falls away", () => {
    expect(plain(afterPeakWords("Intake", side({ after_peak: falling }), display))).toBe(
      "Intake falls away past 0.600 in: 5.2 % down at 0.700 in.",
    );
  });
  test("no fall is claimed that is within repeatability, or has no ±", () => {
    expect(
      afterPeakWords("Intake", side({ after_peak: { ...falling, verdict: "within repeatability" } }), display),
    ).toBeUndefined();
    const { uncertainty: _, ...unsure } = falling;
    expect(afterPeakWords("Intake", side({ after_peak: unsure }), display)).toBeUndefined();
  });
  test("holds", () => {
    const holds = { from_lift_m: 0.4 * INCH, to_lift_m: 0.6 * INCH };
    expect(plain(afterPeakWords("Intake", side({ holds }), display))).toBe("Intake holds from 0.400 to 0.600 in.");
  });
  test("a flat spot", () => {
    const spots = [{ from_lift_m: 0.4 * INCH, to_lift_m: 0.45 * INCH }];
    expect(plain(flatSpotWords("Intake", side({ flat_spots: spots }), display))).toBe(
      "Intake has a flat spot at 0.400 to 0.450 in.",
    );
  });
});

test("crossovers name the lift, and which flows more above it", () => {
  const crossed = pair("within repeatability", 0, 0.02, {
    crossovers_m: [0.3 * INCH],
    changes: [
      {
        lift_m: 0.2 * INCH,
        from_m3_s: 0.05,
        change_m3_s: -0.002,
        change_ratio: -0.04,
        uncertainty_m3_s: 0.001,
        verdict: "clear loss",
      },
      {
        lift_m: 0.4 * INCH,
        from_m3_s: 0.08,
        change_m3_s: 0.004,
        change_ratio: 0.05,
        uncertainty_m3_s: 0.001,
        verdict: "clear gain",
      },
    ],
  });
  expect(plain(crossoverWords(crossed, display))).toBe(
    "Intake curves cross at 0.300 in. The finished port flows more above that lift and less below it.",
  );
  expect(crossoverWords(pair("clear gain", 0.1, 0.02), display)).toBeUndefined();
});

test("a peak stands with its lift, and says when no cam gets there", () => {
  expect(peakWords({ side: "Intake", flow: "202.0 cfm", lift: "0.500 in", beyondCam: true })).toBe(
    "Intake peak: 202.0 cfm at 0.500 in, beyond your cam.",
  );
});

test("which ports were flowed is always said", () => {
  expect(sidePortsWords("intake", { cylinders: [1, 5], n: 2, of: 6 })).toBe(
    "Intake: flowed 2 of 6 ports (cylinders 1 and 5).",
  );
  expect(sidePortsWords("exhaust", { cylinders: [1], n: 1 })).toBe("Exhaust: flowed 1 port (cylinder 1).");
  expect(sidePortsWords("intake", { cylinders: [1], n: 1, of: 4, unnamed: true })).toBe("Intake: flowed 1 of 4 ports.");
  expect(sidePortsWords("intake", { cylinders: [1, 2, 3, 4], n: 4, of: 8 })).toBe(
    "Intake: flowed 4 of 8 ports (cylinders 1 to 4).",
  );
  expect(sidePortsWords("intake", { cylinders: [1], n: 2, of: 8 })).toBe("Intake: flowed 2 of 8 ports (cylinder 1).");
  const one = { cylinders: [1], n: 1, of: 6 };
  expect(
    portsWords([
      { side: "intake", flowed: one },
      { side: "exhaust", flowed: one },
    ]),
  ).toBe("Each side: flowed 1 of 6 ports (cylinder 1).");
});

test("exhaust as share of intake", () => {
  const shares = [
    { lift_m: 0.1 * INCH, ratio: 0.86 },
    { lift_m: 0.3 * INCH, ratio: 0.74 },
  ];
  const words = (exhaust_to_intake: typeof shares, ports = 1) =>
    plain(exhaustShareWords({ exhaust_to_intake, intake: { ports }, exhaust: { ports: 1 } }, display));
  expect(words(shares)).toBe("Exhaust as share of intake: 74 % to 86 % from 0.100 to 0.300 in.");
  expect(words(shares, 2)).toBe("Exhaust as share of intake, of one cylinder: 74 % to 86 % from 0.100 to 0.300 in.");
  expect(words([])).toBeUndefined();
});

test("figures are typical from three parts on", () => {
  expect([1, 2, 3].map(typicalWords)).toEqual([
    "Measured on 1 part",
    "Measured on 2 parts",
    "Typical of 3 parts measured",
  ]);
});

test("a crack test finds none by its method; it proves nothing", () => {
  expect(checkResultWords({ check: "Crack test", method: "dye penetrant", result: "none" })).toBe(
    "no crack found by dye penetrant",
  );
  expect(checkResultWords({ check: "Crack test", method: "dye penetrant", result: "crack at seat 3" })).toBe(
    "crack at seat 3",
  );
  expect(checkResultWords({ check: "Pressure test", result: "no leak" })).toBe("no leak");
});

test("text functions", () => {
  expect(joinWords(["a", "b", "c"])).toBe("a, b and c");
  expect([lowercaseFirst("Intake ports"), lowercaseFirst("CNC work")]).toEqual(["intake ports", "CNC work"]);
  expect(toSentence("guides replaced")).toBe("Guides replaced.");
  expect(dateWords("2026-03-08")).toBe("8 March 2026");
  expect([dateSpan("2026-02-24", "2026-03-12"), dateSpan("2025-12-30", "2026-01-02")]).toEqual([
    "24 February to 12 March 2026",
    "30 December 2025 to 2 January 2026",
  ]);
  expect(
    [
      ["2026-06-02", "2026-08-30"],
      ["2026-05-03", "2026-05-01"],
      ["2026-01-09", "2025-11-30"],
    ].map(monthSpan),
  ).toEqual(["June to August 2026", "May 2026", "November 2025 to January 2026"]);
  expect(airPowerWords("300 hp")).toBe("Air for at most about 300 hp (rule of thumb, bare head).");
});

describe("readings brought to another pressure", () => {
  const read = (...from: (number | undefined)[]) =>
    from.map((converted_from_Pa, i) => ({
      lift_m: i,
      flow_m3_s: 1,
      repeats: 1,
      ...(converted_from_Pa ? { converted_from_Pa } : {}),
    }));
  const TEN = 2490.8891;
  test("say from which", () =>
    expect(plain(pressureConversionWords(read(TEN, TEN), display))).toBe("Converted from 10 inH₂O."));
  test("say so of a part", () =>
    expect(plain(pressureConversionWords(read(TEN, undefined), display))).toBe("Partly converted from 10 inH₂O."));
  test("are not there when nothing was converted", () =>
    expect(pressureConversionWords(read(undefined), display)).toBeUndefined());
});
