import { describe, expect, test } from "vitest";
import { columnsSwapped, exhaustIsSmaller, type FlowedSides } from "../../../src/figures/checks/columns-swapped.ts";
import type { Sweep } from "../../../src/figures/sweep/sweep.ts";
import { millimetres } from "../model-fixture.ts";

type Ports = FlowedSides["stage"]["ports"];

const LIFTS = [2, 4, 6, 8];
const flows = (of: readonly number[]) =>
  ({ good: of.map((flow, k) => ({ lift: LIFTS[k]! / 1000, flow })) }) as unknown as Sweep;
const valve = (head: number) => ({ valves: [{ head: millimetres(head) }] }) as unknown as NonNullable<Ports["intake"]>;
const NONE = {};
const VALVES = { intake: valve(44), exhaust: valve(38) };
const head = (intake: readonly number[], exhaust: readonly number[], ports: Ports = NONE): FlowedSides => ({
  stage: { ports },
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
    expect(columnsSwapped(head(I, E), { stage: { ports: VALVES }, intake: flows(E) })).toBe(false);
    expect(columnsSwapped({ stage: { ports: VALVES } }, { stage: { ports: VALVES } })).toBe(false);
  });

  /**
   * At each lift ln E = −0.1 below the intake, and later the exhaust lies 0.1 above it: straight Σ|ln| = 0.2 + x, crossed = 0.2 − x
   * where the intake fell by x, which is a share of (0.2 − x) ÷ (0.2 + x).
   */
  const turned = (share: number) => {
    const x = (0.2 * (1 - share)) / (1 + share);
    return [up(I, Math.exp(-0.1)), up(I, Math.exp(-x)), up(I, Math.exp(0.1))] as const;
  };
  test.each([
    [NONE, NONE, 0.499, 0.501],
    [VALVES, VALVES, 0.899, 0.901],
    [VALVES, NONE, 0.899, 0.901],
    [NONE, VALVES, 0.899, 0.901],
  ])("nearer by a tenth with %j or %j, else by half", (first, second, near, far) => {
    for (const [share, said] of [
      [near, true],
      [far, false],
    ] as const) {
      const [e, i, o] = turned(share);
      expect(columnsSwapped(head(I, e, first), head(i, o, second))).toBe(said);
      expect(columnsSwapped(head(i, o, second), head(I, e, first))).toBe(said);
      // The same with all four columns changed over.
      expect(columnsSwapped(head(e, I, first), head(o, i, second))).toBe(said);
      expect(columnsSwapped(head(o, i, second), head(e, I, first))).toBe(said);
    }
  });

  test("it takes most of the lifts, and two of them at least", () => {
    const two = (of: readonly number[]) => of.slice(0, 2);
    expect(columnsSwapped(head(two(I), two(E), VALVES), head(two(E), two(I), VALVES))).toBe(true);
    const swappedAt = (many: number, other: readonly [number, number, number, number]) => {
      const column = (k: 0 | 1 | 2 | 3, swapped: readonly number[]) =>
        I.map((flow, n) => (n < many ? swapped[n]! : flow * other[k]));
      const [from, to] = [head(column(0, I), column(1, E)), head(column(2, E), column(3, I))];
      return [columnsSwapped(from, to), columnsSwapped(to, from)];
    };
    // Beside them: both above the intake, both below it, and as much as the intake in one or the other.
    for (const other of [
      [1, 1.01, 1, 1.02],
      [1, 0.99, 1, 0.98],
      [1, 1, 1, 1.01],
      [1, 0.99, 1, 1],
    ] as const) {
      expect(swappedAt(2, other)).toEqual([false, false]);
      expect(swappedAt(3, other)).toEqual([true, true]);
    }
  });

  test("a lift at which the exhaust passed nothing tells nothing", () => {
    const [from, to] = [
      [I, E],
      [E, I],
    ].map(([intake, exhaust]) => [
      [20, ...intake!.slice(1)],
      [0, ...exhaust!.slice(1)],
    ]);
    expect(columnsSwapped(head(from![0]!, from![1]!), head(to![0]!, to![1]!))).toBe(true);
  });
});

test("the exhaust is smaller by the area of all its valves, where both are known", () => {
  const two = { ...valve(30), valves: [...valve(30).valves, ...valve(30).valves] };
  expect(exhaustIsSmaller({ intake: valve(44), exhaust: valve(44) })).toBe(false);
  expect(exhaustIsSmaller({ intake: valve(44), exhaust: valve(43.9) })).toBe(true);
  // 2 · 30² is less than 43², and more than 42².
  expect([42, 43].map((head) => exhaustIsSmaller({ intake: valve(head), exhaust: two }))).toEqual([false, true]);
  expect([exhaustIsSmaller({ intake: valve(44) }), exhaustIsSmaller({ exhaust: valve(44) })]).toEqual([false, false]);
  const none = { ...valve(1), valves: [] };
  expect(exhaustIsSmaller({ intake: none, exhaust: valve(44) })).toBe(false);
  expect(exhaustIsSmaller({ intake: valve(44), exhaust: none })).toBe(false);
});
