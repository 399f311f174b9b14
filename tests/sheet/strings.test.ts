import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { computeFigures } from "../../src/figures/compute-figures.ts";
import type { Figures, Verdict } from "../../src/figures/figures.ts";
import { BLOCKS } from "../../src/sheet/blocks.ts";
import { CAUTIONS } from "../../src/sheet/cautions.ts";
import type { Sheet } from "../../src/sheet/content.ts";
import { createDisplay } from "../../src/sheet/display.ts";
import { parseWithheld } from "../../src/sheet/withheld.ts";
import { inclinedFinished, inclinedReceived } from "../figures/demo-heads.ts";
import type { Row } from "../figures/model-fixture.ts";
import { faultsOf, sentencesOf, wordCount } from "./lint.ts";
import {
  fullModel,
  fullSketch,
  numbersOf,
  only,
  repeated,
  sheetOf,
  stringsOf,
  templateOf,
  theme,
} from "./sheet-fixture.ts";

/** Longest sentence of our own; common practice for plain writing. */
const MOST_WORDS = 20;

const before = fullSketch.stages![0]!;
const after = fullSketch.stages![1]!;
const everything = only(...Object.keys(BLOCKS));

/** Faults of every string of a sheet, each with its place, so that a failure names it. */
function badStrings(sheet: Sheet): readonly string[] {
  return stringsOf(sheet).flatMap(({ block, text }) => {
    const long = sentencesOf(text).filter((sentence) => wordCount(sentence) > MOST_WORDS);
    return [...faultsOf(text), ...long.map((sentence) => `long: ${sentence}`)].map(
      (fault) => `${block}: ${fault}: ${text}`,
    );
  });
}
const badNumbers = (sheet: Sheet) => numbersOf(sheet).filter((number) => !Number.isFinite(number));

const shapes: Record<string, () => ReturnType<typeof fullModel>> = {
  full: () => fullModel(),
  inches: () =>
    fullModel({
      lifts: "in",
      stages: [
        { ...before, runs: repeated(inchRows(inclinedReceived), 1, 1.002) },
        { ...after, runs: repeated(inchRows(inclinedFinished), 1, 1.003) },
      ],
    }),
  "one stage": () => fullModel({ stages: [before], text: { ...fullSketch.text, work: [] } }),
  "three stages": () =>
    fullModel({ stages: [before, { ...before, name: "Roughed", runs: repeated(inclinedReceived, 1.1, 1.11) }, after] }),
  "one sweep": () =>
    fullModel({
      stages: [
        { ...before, runs: repeated(inclinedReceived, 1) },
        { ...after, runs: repeated(inclinedFinished, 1) },
      ],
    }),
  "several cylinders": () =>
    fullModel({
      stages: [
        before,
        {
          ...after,
          runs: [1, 3, 5].flatMap((cylinder, i) =>
            repeated(inclinedFinished, 1 - 0.01 * i, 1.002 - 0.01 * i).map((run) => ({ ...run, cylinder })),
          ),
        },
      ],
    }),
  "unlike sets": () =>
    fullModel({
      compared: [{ label: "Standard valves", stage: before }],
      stages: [
        { ...before, bench: { intakeEntry: "none" } },
        {
          ...after,
          sets: [
            { name: "bare", runs: after.runs! },
            {
              name: "with pipe",
              bench: { exhaustPipe: { diameter: 0.044 as never, length: 0.2 as never } },
              runs: repeated(inclinedFinished, 1.02),
            },
          ],
        },
      ],
    }),
  product: () =>
    fullModel({
      kind: "product",
      stages: [],
      samples: [1, 1.01, 0.99].map((factor) => ({ ...after, runs: repeated(inclinedFinished, factor) })),
      text: {
        product: {
          part: "AL-771",
          name: "Harbour inclined, street",
          fits: ["Harbour six"],
          included: [],
          notIncluded: [],
        },
      },
    }),
  "nothing but a name": () => fullModel({ stages: [], text: { head: { name: "Harbour inclined" } } }),
};

function inchRows(rows: readonly Row[]): readonly Row[] {
  return rows.map(([lift, ...rest]) => [lift * 0.04, ...rest] as unknown as Row);
}

describe.each(Object.keys(shapes))("%s", (shape) => {
  const model = shapes[shape]!();
  test.each(["handover", "engine", "attachment", "catalogue"])("%s: every string may be printed", (template) => {
    const sheet = sheetOf(model, templateOf(template));
    expect(badStrings(sheet)).toEqual([]);
    expect(badNumbers(sheet)).toEqual([]);
  });
  test("the same holds for every block", () => {
    const sheet = sheetOf(model, everything);
    expect(badStrings(sheet)).toEqual([]);
    expect(badNumbers(sheet)).toEqual([]);
  });
  test("no word claims what a shop cannot", () => {
    const words = stringsOf(sheetOf(model, everything))
      .map(({ text }) => text)
      .join("\n");
    expect(words).not.toMatch(/certif|calibrat|accredit|guarant|\befficien|supports? \d|\bmax\b|\bchoke/i);
  });
  test("headings go down one level at a time, the title first", () => {
    const levels = sheetOf(model).rows.flatMap((row) =>
      row.cells.flatMap(({ block }) =>
        block.parts.flatMap((part) => {
          if (part.kind === "title" || part.kind === "hero") return [1];
          return part.kind === "heading" ? [part.level] : [];
        }),
      ),
    );
    expect(levels[0]).toBe(1);
    // Of a title beside a photograph and one without, layout keeps one.
    const titles = sheetOf(model).rows.some(({ cells }) => cells.some(({ block }) => block.name === "hero")) ? 2 : 1;
    expect(levels.filter((level) => level === 1)).toHaveLength(titles);
  });
});

test("random sweeps make no bad string and no bad number", () => {
  const factor = fc.double({ min: 0.2, max: 3, noNaN: true });
  const sweep = (rows: readonly Row[]) =>
    fc
      .tuple(fc.array(factor, { minLength: rows.length, maxLength: rows.length }), fc.constantFrom("", "?", "!", "~"))
      .map(([factors, mark]) =>
        rows.map(([lift, intake, exhaust], i) => {
          const value = ((intake as number) * factors[i]!).toFixed(1);
          return [
            lift,
            i === 3 && mark !== "" ? (mark === "~" ? `~${value}` : `${value}${mark}`) : Number(value),
            exhaust,
          ] as Row;
        }),
      );
  const runs = (rows: readonly Row[]) =>
    fc.array(sweep(rows), { minLength: 1, maxLength: 3 }).map((list) => list.map((each) => ({ rows: each })));
  fc.assert(
    fc.property(runs(inclinedReceived), runs(inclinedFinished), (first, second) => {
      const sheet = sheetOf(
        fullModel({
          stages: [
            { ...before, runs: first },
            { ...after, runs: second },
          ],
        }),
        everything,
      );
      expect(badStrings(sheet)).toEqual([]);
      expect(badNumbers(sheet)).toEqual([]);
    }),
    { numRuns: 12, seed: 20260318 },
  );
});

test("random verdicts are never stronger than their ±", () => {
  const model = fullModel();
  const figures = computeFigures(model);
  const verdict = fc.constantFrom<Verdict>("clear gain", "clear loss", "within repeatability", "too few repeats");
  const change = fc.record({
    verdict,
    ratio: fc.double({ min: -0.9, max: 2, noNaN: true }),
    u: fc.option(fc.double({ min: 1e-6, max: 1, noNaN: true }), { nil: undefined }),
  });
  fc.assert(
    fc.property(change, ({ verdict, ratio, u }) => {
      const changed: Figures = {
        ...figures,
        comparisons: figures.comparisons.map((pair) => {
          const { mean_change_uncertainty_ratio: _, peak_change: peak, ...rest } = pair;
          const judged = <T extends { readonly uncertainty_m3_s?: number }>({ uncertainty_m3_s: __, ...item }: T) => ({
            ...item,
            verdict,
            ...(u === undefined ? {} : { uncertainty_m3_s: u * 0.05 }),
          });
          return {
            ...rest,
            mean_change_ratio: ratio,
            mean_change_verdict: verdict,
            ...(u === undefined ? {} : { mean_change_uncertainty_ratio: u }),
            ...(peak === undefined ? {} : { peak_change: judged(peak) }),
            changes: pair.changes.map(judged),
          };
        }),
      };
      const sheet = sheetOf(model, only("summary", "headline", "flow-table", "compared", "change-chart"), changed);
      expect(badStrings(sheet)).toEqual([]);
      const words = stringsOf(sheet)
        .map(({ text }) => text)
        .join("\n");
      if (u === undefined || verdict === "too few repeats") expect(words).not.toMatch(/[+−]\d+\.\d|a clear|on average/);
      else expect(words).toMatch(verdict.startsWith("clear") ? new RegExp(verdict) : /within repeatability/);
    }),
    { numRuns: 40, seed: 20260318 },
  );
});

test("every caution has at most 45 words in sentences of at most twenty, and a name of its own", () => {
  const model = fullModel();
  const figures = computeFigures(model);
  const context = {
    model,
    figures,
    theme,
    display: createDisplay(model.units, [], 343),
    withheld: parseWithheld([]),
    sides: ["intake", "exhaust"] as const,
    stages: [],
    blocks: [],
    identifier: "x revision 1 figures 0f1e2d3c",
  };
  expect(new Set(CAUTIONS.map(({ id }) => id)).size).toBe(CAUTIONS.length);
  for (const rule of CAUTIONS) {
    const text = rule.text(context);
    expect(wordCount(text), rule.id).toBeLessThanOrEqual(45);
    for (const sentence of sentencesOf(text)) expect(wordCount(sentence), rule.id).toBeLessThanOrEqual(MOST_WORDS);
    expect(faultsOf(text), rule.id).toEqual([]);
  }
});

test("every template we ship is read without a fault", () => {
  for (const name of ["handover", "engine", "attachment", "catalogue"]) expect(templateOf(name).name).toBe(name);
});
