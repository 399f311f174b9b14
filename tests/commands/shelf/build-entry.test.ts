import { describe, expect, test } from "vitest";
import { buildEntry, SHELF_LIFTS } from "../../../src/commands/shelf/build-entry.ts";
import { differenceText } from "../../../src/commands/shelf/difference-text.ts";
import { distance } from "../../../src/commands/shelf/distance.ts";
import { METRIC } from "../../../src/model/display-units.ts";
import { evaluateJob } from "../../../src/pipeline/evaluate.ts";
import type { Pascals } from "../../../src/units/quantity.ts";
import { archive } from "../../archive/archive.ts";
import { memoryWorld } from "../../project/memory-world.ts";
import { demo, kit } from "../../whole/demo.ts";

const filed = archive(130, 3);
const ofTwoStages = Object.values(filed).find(
  (one) => one.includes("name: Finished") && one.includes("flow: cfm") && one.includes("name: As received"),
)!;

/** A job as it stands on the shelf, with its figures as its own sheet would have them. */
function shelved(text: string) {
  const io = memoryWorld({ "/j/shop.yaml": filed["shop.yaml"]!, "/j/one.yaml": text });
  const asked = { testPressure: 6974.489 as Pascals, reportLifts: SHELF_LIFTS, pictures: false } as const;
  const worked = evaluateJob("one.yaml", asked, io, "/j");
  return { entry: buildEntry("one.yaml", worked), figures: worked.drawable?.figures };
}

describe("an entry of the shelf", () => {
  test("is of the last stage that measures no other again, and its change is from the stage before that", () => {
    const [head, start, finished, work] = ofTwoStages.split(/(?= {2}- name: |work:)/);
    const louder = finished!.replaceAll(
      /^( {6}[\d.]+ {2})([\d.]+)/gm,
      (_, lift, flow) => `${lift}${(Number(flow) * 1.01).toFixed(1)}`,
    );
    const stages = [
      start,
      finished!.replace("Finished", "Between"),
      louder,
      finished!.replace("name: Finished", "name: Again\n    repeats: Finished"),
    ].map((stage) => `${stage!.trimEnd()}\n`);
    const { entry, figures } = shelved([head, ...stages, work].join(""));
    expect(entry.stage).toBe("Finished");
    expect(entry.intake?.peak).toEqual(figures!.stages[2]!.intake!.peak);
    expect(entry.intake?.peak).not.toEqual(figures!.stages[3]!.intake!.peak);
    expect(entry.intake?.latest_change).toMatchObject({
      from: "Between",
      ratio: figures!.comparisons.find(({ from, side }) => from.stage === "Between" && side === "intake")!
        .mean_change_ratio,
    });
  });

  test("names the first fault of a job that no valve could be, or that is too strict for its own stages", () => {
    const strict = ofTwoStages.replace(/report: .*\n/, "").replace("stages:", "report: { strict: true }\nstages:");
    const harmed = [
      ofTwoStages.replace("bench: {", "bench: { leakage: { intake: 900 cfm, exhaust: 900 cfm },"),
      ofTwoStages.replaceAll(
        /^( {6}[\d.]+ {2})([\d.]+)/gm,
        (_, lift, flow) => `${lift}${(Number(flow) * 3).toFixed(1)}`,
      ),
      strict,
      strict.replace("  - name: Finished\n", "  - name: Finished\n    bench: { bore_fixture: 3.1 in }\n"),
    ];
    expect(harmed.map((text) => shelved(text).entry.refused?.code)).toEqual([
      "figures/below-leakage",
      "figures/curtain-over-ideal",
      undefined,
      "figures/unlike-conditions",
    ]);
  });
});

describe("a product on the shelf", () => {
  const evaluated = (file: string) =>
    evaluateJob(demo(file), { testPressure: 6974.489 as Pascals, reportLifts: SHELF_LIFTS, pictures: false }, kit.io);
  const entry = buildEntry("fd-16.yaml", evaluated("fennick/fd-16.yaml"));

  test("has the sizes that its page prints: those in which all its heads are one", () => {
    expect([entry.intake?.throat_m, entry.exhaust?.throat_m]).toEqual([0.0289, 0.0238]);
    expect(entry.intake?.pinch_area_m2).toBeUndefined();
  });

  test("is never said not to be measured where its page gives no one value", () => {
    const head = buildEntry("f-301.yaml", evaluated("fennick/f-301.yaml"));
    const { byFeature } = distance(entry, head);
    expect(differenceText(byFeature, entry, head, METRIC).not_known).toEqual([
      "intake pinch not given by the product's page",
      "exhaust pinch not given by the product's page",
    ]);
    expect(differenceText(distance(head, entry).byFeature, head, entry, METRIC).not_known).toEqual([
      "intake pinch not given by the product's page",
      "exhaust pinch not given by the product's page",
    ]);
  });
});
