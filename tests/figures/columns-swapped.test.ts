import { describe, expect, test } from "vitest";
import { type BothSides, columnsSwapped } from "../../src/figures/columns-swapped.ts";
import type { Sweep } from "../../src/figures/sweep.ts";
import { millimetres } from "./model-fixture.ts";

const LIFTS = [2, 4, 6, 8];
const flows = (of: readonly number[]) =>
  ({ good: of.map((flow, k) => ({ lift: LIFTS[k]! / 1000, flow })) }) as unknown as Sweep;
const valve = (head: number) =>
  ({ valves: [{ head: millimetres(head) }] }) as unknown as NonNullable<BothSides["ports"]["intake"]>;
const NONE = {};
const VALVES = { intake: valve(44), exhaust: valve(38) };
const head = (intake: readonly number[], exhaust: readonly number[], ports: BothSides["ports"] = NONE): BothSides => ({
  ports,
  intake: flows(intake),
  exhaust: flows(exhaust),
});
const I = [40, 80, 110, 130];
const E = [32, 60, 80, 92];
const up = (of: readonly number[], by: number) => of.map((flow) => flow * by);

describe("two stages of which one has its columns swapped", () => {
  test("whichever it is, after a gain of 20 % and of none; where the valves are known, of 40 %", () => {
    for (const [ports, gains] of [
      [NONE, [1, 1.06, 1.2]],
      [VALVES, [1, 1.06, 1.2, 1.4]],
    ] as const)
      for (const gain of gains) {
        const after = [up(I, gain), up(E, 1 + (gain - 1) / 4)] as const;
        expect(columnsSwapped(head(I, E, ports), head(after[1], after[0], ports))).toBe(true);
        expect(columnsSwapped(head(E, I, ports), head(after[0], after[1], ports))).toBe(true);
        expect(columnsSwapped(head(I, E, ports), head(after[0], after[1], ports))).toBe(false);
      }
  });

  test("both swapped alike compare column with column, and so they stay", () => {
    expect(columnsSwapped(head(E, I, VALVES), head(up(E, 1.1), up(I, 1.1), VALVES))).toBe(false);
  });

  // Straight Σ|ln| a lift: ln 1.05 + ln 1.10 = 0.144; crossed: ln (1.05 ÷ 0.96) + ln (1.056 ÷ 1) = 0.090 + 0.054 = 0.144.
  test("an exhaust that work carries past the intake is no swap", () => {
    expect(columnsSwapped(head(I, up(I, 0.96)), head(I, up(I, 1.05)))).toBe(false);
    expect(columnsSwapped(head(I, up(I, 0.96), VALVES), head(up(I, 1.05), up(I, 1.06), VALVES))).toBe(false);
  });

  // Straight a lift: |ln 0.9| + ln 1.09 = 0.105 + 0.086 = 0.192; crossed: |ln (0.9 ÷ 0.9)| + |ln (0.981 ÷ 1)| = 0.019.
  test("sides that flow almost alike: told where the valves say so, and where the columns lie nearer crossed by half", () => {
    const [from, to] = [head(I, up(I, 0.9)), head(up(I, 0.9), up(I, 0.981))];
    expect(columnsSwapped(from, to)).toBe(true);
    // Straight: |ln 0.95| + ln 1.1 = 0.051 + 0.095 = 0.147; crossed: |ln (0.95 ÷ 0.955)| + ln 1.05 = 0.005 + 0.049 = 0.054, below half.
    expect(columnsSwapped(head(I, up(I, 0.955)), head(up(I, 0.95), up(I, 1.05)))).toBe(true);
    // Straight: |ln 0.97| + ln 1.1 = 0.030 + 0.095 = 0.126; crossed: ln (0.97 ÷ 0.955) + ln 1.05 = 0.016 + 0.049 = 0.064: above half.
    const near = [up(I, 0.955), up(I, 0.97), up(I, 1.05)] as const;
    expect(columnsSwapped(head(I, near[0]), head(near[1], near[2]))).toBe(false);
    expect(columnsSwapped(head(I, near[0], VALVES), head(near[1], near[2]))).toBe(true);
  });

  test("one lift, or one column, tells nothing", () => {
    const one = ([first]: readonly number[]) => [first!];
    expect(columnsSwapped(head(one(I), one(E)), head(one(E), one(I)))).toBe(false);
    expect(columnsSwapped(head(I, E), { ports: VALVES, intake: flows(E) })).toBe(false);
    expect(columnsSwapped({ ports: VALVES }, { ports: VALVES })).toBe(false);
  });
});
