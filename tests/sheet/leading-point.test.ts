import { describe, expect, test } from "vitest";
import { computeFigures } from "../../src/figures/compute-figures.ts";
import type { Comparison } from "../../src/figures/figures.ts";
import { modelOf, type Row, type Sketch } from "../figures/model-fixture.ts";
import { only, said, sheetOf } from "./sheet-fixture.ts";

const ROWS: readonly Row[] = [
  [0.1, 40, 33],
  [0.2, 78, 63],
  [0.3, 111, 82],
  [0.4, 133, 97],
];
const twice = (factor: number, extra: readonly Row[] = []): readonly Row[] =>
  [ROWS, ROWS].flatMap((rows, k) =>
    [...rows, ...extra].map(
      ([lift, ...flows]): Row => [lift, ...flows.map((flow) => (flow as number) * factor + 0.1 * k)] as unknown as Row,
    ),
  );
/** Two stages of a head whose valves nobody measured. */
const bare: Sketch = { lifts: "in", stages: [{ flow: twice(1) }, { flow: twice(1.1) }] };
const panels = (sketch: Sketch, change?: (pair: Comparison) => Comparison) => {
  const model = modelOf(sketch);
  const computed = computeFigures(model);
  const figures = change ? { ...computed, comparisons: computed.comparisons.map(change) } : computed;
  return said(sheetOf(model, only("flow-panels", "flow-table"), figures), "flow-panels");
};

describe("the flow of which the page speaks, of a head without valve sizes", () => {
  test("has its verdict, and what it was", () => {
    expect(panels(bare)).toContain("clear gain");
    expect(panels(bare)).toMatch(/was 133\.\d; at this lift \+10\.0/);
  });
  test("is of all ports of the curve", () => {
    const run = (cylinder: number, extra: readonly Row[] = []) => ({ cylinder, rows: twice(1.1, extra) });
    const partial: Sketch = {
      lifts: "in",
      stages: [
        { runs: [1, 2].map((cylinder) => ({ cylinder, rows: twice(1) })) },
        { runs: [run(1), run(2, [[0.45, 150, 110]])] },
      ],
    };
    expect(panels(partial)).toContain("Intake at 0.400 in");
  });
});

test("a change beyond its ± that is not claimed is not said to be within it", () => {
  const unclaimed = panels(bare, (pair) => ({
    ...pair,
    changes: pair.changes.map((change) => ({ ...change, verdict: "within repeatability" as const })),
  }));
  expect(unclaimed).toContain("not claimed");
  expect(unclaimed).not.toContain("within ±");
});
