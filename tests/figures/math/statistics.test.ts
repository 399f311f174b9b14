import { describe, expect, test } from "vitest";
import { incompleteBeta, logGamma } from "../../../src/figures/math/incomplete-beta.ts";
import { rangeToDeviation } from "../../../src/figures/math/range-factor.ts";
import { studentT } from "../../../src/figures/math/student-t.ts";
import { studentisedRange } from "../../../src/figures/math/studentised-range.ts";
import {
  combine,
  combineInputs,
  expandedAt,
  propagate,
  sensitivities,
  type Term,
} from "../../../src/figures/math/uncertainty.ts";
import { spreadOf } from "../../../src/figures/side/sample-figures.ts";
import { pooledDeviation } from "../../../src/figures/sweep/repeatability.ts";
import { published } from "../published.ts";

// NIST TN 1297 (1994) table B.1 = GUM table G.2; half a unit of the last printed digit, exact column to nine figures.
describe("Student's t", () => {
  test.each(published("student-t"))("ν = $nu", (row) => {
    const nu = row.nu ?? Number.POSITIVE_INFINITY;
    const printed = [
      [0.6827, row.p68_27, 0.005],
      [0.9, row.p90, nu === Number.POSITIVE_INFINITY ? 0.0005 : 0.005],
      [0.95, row.p95, 0.005],
      [0.9545, row.p95_45, 0.005],
      [0.99, row.p99, 0.005],
      [0.9973, row.mismatch === undefined ? row.p99_73 : undefined, 0.005],
    ].filter(([, value]) => value !== undefined);
    for (const [confidence, value, half] of printed) {
      expect(Math.abs(studentT(nu, confidence) - value)).toBeLessThanOrEqual(half * 1.001);
    }
    if (row.t95_exact !== undefined && row.nu !== null)
      expect(Math.abs(studentT(nu, 0.95) / row.t95_exact - 1)).toBeLessThan(1e-9);
  });
  // NIST TN 1297 table B.1: n = 2, 3 and 5 repeats.
  test.each([
    [1, 13.97],
    [2, 4.53],
    [4, 2.87],
  ])("at 95.45 %% with %i degrees of freedom: %f", (nu, t) => expect(studentT(nu).toFixed(2)).toBe(t.toFixed(2)));
  test("two in the limit", () => expect(studentT(Number.POSITIVE_INFINITY)).toBeCloseTo(2, 5));
  test("building blocks", () => {
    for (let n = 1, factorial = 1; n < 15; factorial *= n, n++)
      expect(logGamma(n)).toBeCloseTo(Math.log(factorial), 11);
    expect(logGamma(0.5)).toBeCloseTo(Math.log(Math.sqrt(Math.PI)), 12);
    // I_x(1, b) = 1 − (1 − x)^b and I_x(a, 1) = x^a.
    expect(incompleteBeta(0.3, 1, 4)).toBeCloseTo(1 - 0.7 ** 4, 13);
    expect(incompleteBeta(0.3, 2.5, 1)).toBeCloseTo(0.3 ** 2.5, 13);
  });
});

// Harter (1960), upper 5 % and 1 % points; half a unit of the last printed digit, but for four cells that the table rounds otherwise.
describe("studentised range", () => {
  test.each(published("studentised-range"))("ν = $nu, p = $p", ({ p, nu, q, digits = 2 }) => {
    for (const [k, printed] of (q as number[]).entries()) {
      const isMisprint = p === 0.99 && ["3 8", "3 9", "3 10", "4 9"].includes(`${nu} ${k + 2}`);
      const allowed = (isMisprint ? 2 : 0.5005) * 10 ** -digits;
      expect(Math.abs(studentisedRange(k + 2, nu ?? Number.POSITIVE_INFINITY, p) - printed)).toBeLessThanOrEqual(
        allowed,
      );
    }
  });
  test("two means are a Student's t of their difference", () => {
    for (const nu of [1, 2.5, 7, 400]) expect(studentisedRange(2, nu)).toBeCloseTo(Math.SQRT2 * studentT(nu), 12);
  });
  test("more means, or a lower ν, reach further", () => {
    for (const nu of [1, 2.4, 11, 90]) {
      for (let n = 3; n < 8; n++) {
        expect(studentisedRange(n, nu)).toBeGreaterThan(studentisedRange(n - 1, nu));
        expect(studentisedRange(n, nu * 1.3)).toBeLessThan(studentisedRange(n, nu));
      }
    }
  });
});

test("GUM H.1: combined uncertainty and effective degrees of freedom of the end gauge", () => {
  const [row] = published("uncertainty", "welch-satterthwaite");
  const terms: Term[] = row.contributions_nm.map((u: number, k: number) => ({
    part: "repeats",
    error: `${k}`,
    estimate: `${k}`,
    u,
    dof: row.dof[k] ?? Number.POSITIVE_INFINITY,
  }));
  const { u, dof } = combine(terms);
  // The contributions are printed rounded, so the sum is theirs to two figures only.
  expect(Math.round(u)).toBe(row.published.uc_nm);
  expect(Math.floor(dof)).toBe(row.published.nu_eff);
  expect(studentT(Math.floor(dof), 0.99)).toBeCloseTo(row.published.k99, 2);
});

test("GUM 4.4.3: standard deviation of twenty readings", () => {
  const [row] = published("uncertainty", "type-a");
  const spread = spreadOf(row.data);
  expect(spread.standard_deviation_m3_s).toBeCloseTo(row.recomputed.s, 8);
  const pooled = pooledDeviation([row.data])!;
  expect((pooled.s * spread.mean_m3_s) / Math.sqrt(20)).toBeCloseTo(row.recomputed.s_mean, 8);
  expect(pooled.dof).toBe(19);
});

// NIST Statistical Reference Datasets; tolerances as the datasets advise for two-pass sums.
test.each(published("nist-strd").filter((row) => Array.isArray(row.data) && row.sd !== undefined))(
  "NIST StRD $dataset",
  (row) => {
    const spread = spreadOf(row.data);
    expect(Math.abs(spread.mean_m3_s / row.mean - 1)).toBeLessThan(1e-13);
    expect(Math.abs(spread.standard_deviation_m3_s! / row.sd - 1)).toBeLessThan(1e-9);
  },
);

test("GUM Supplement 1, 9.2: four unit errors add to two", () => {
  const [row] = published("uncertainty", "combine");
  const terms = row.u.map((u: number, k: number) => ({
    error: `${k}`,
    estimate: `${k}`,
    u,
    dof: Number.POSITIVE_INFINITY,
  }));
  expect(combine(terms).u).toBeCloseTo(row.published.uc, 12);
  expect(combine(terms).u * studentT(Number.POSITIVE_INFINITY, 0.95)).toBeCloseTo(row.recomputed.interval95, 4);
});

test("one error named twice adds as it stands; two estimates of one size share its freedom", () => {
  const term = (error: string, u: number): Term => ({ part: "repeats", error, estimate: "s", u, dof: 4 });
  expect(combine([term("a", 3), term("a", 4)]).u).toBe(7);
  expect(combine([term("a", 3), term("a", -3)]).expanded).toBe(0);
  expect(combine([term("a", 3), term("b", 4)])).toMatchObject({ u: 5 });
  expect(combine([term("a", 3), term("b", 4)]).dof).toBeCloseTo(4, 12);
});
test("several budgets combine with their sensitivities", () => {
  const term = (error: string, estimate: string, u: number, dof: number): Term => ({
    part: estimate === "accuracy" ? "accuracy" : "repeats",
    error,
    estimate,
    u,
    dof,
  });
  const budgets = [
    [
      term("bench", "accuracy", 0.3, Number.POSITIVE_INFINITY),
      term("a", "repeats", 0.11, 4),
      term("b", "repeats", 0.7, 4),
    ],
    [term("bench", "accuracy", 0.9, Number.POSITIVE_INFINITY), term("c", "repeats", 0.13, 6)],
    [],
  ];
  const by = [1 / 3, -0.7, 5];
  // The errors of the bench are one: 0.1 − 0.63. JCGM 100:2008 (GUM), 5.2.2, note 1.
  const variance = 0.53 ** 2 + (0.11 / 3) ** 2 + (0.7 / 3) ** 2 + (0.13 * 0.7) ** 2;
  expect(combine(propagate(budgets, by)).u).toBeCloseTo(Math.sqrt(variance), 12);
  const combined = combineInputs(budgets, by);
  expect(combined.u).toBeCloseTo(Math.sqrt(variance), 12);
  expect(combined.parts.accuracy).toBeCloseTo(0.53 ** 2 / variance, 12);
  expect(combined.parts.accuracy! + combined.parts.repeats!).toBeCloseTo(1, 12);
});
test("in a difference a shared error remains by as much as the two differ", () => {
  const term = (error: string, u: number): Term => ({ part: "repeats", error, estimate: error, u, dof: 9 });
  const { u } = combineInputs(
    [
      [term("bench", 3), term("x", 1)],
      [term("bench", 2), term("y", 2)],
    ],
    [1, -1],
  );
  expect(u).toBeCloseTo(Math.sqrt(1 + 1 + 4), 12);
});
describe("lift settings", () => {
  const setting = (mount: string, at: number, u: number): Term => ({
    part: "lift_setting",
    error: mount,
    errorAtLift: `${mount} ${at}`,
    estimate: "lift setting",
    u,
    dof: Number.POSITIVE_INFINITY,
  });
  test("add as one error of the mount, or each lift by itself, whichever is more", () => {
    const same = [setting("1", 1, 3), setting("1", 2, 4)];
    const opposed = [setting("1", 1, 3), setting("1", 2, -4)];
    expect([combine(same).u, combine(opposed).u]).toEqual([7, 5]);
    expect([combine(same, "own").u, combine(opposed, "own").u]).toEqual([5, 5]);
    expect(combine(same).parts).toEqual({ lift_setting: 1 });
  });
  test("of two mounts are two errors; a lift that is set once and read twice is one", () => {
    expect(combine([setting("1", 1, 3), setting("2", 1, 4)]).u).toBe(5);
    expect(combine([setting("1", 1, 3), setting("1", 1, 4)], "own").u).toBe(7);
  });
});
test("a ± at another level is Student's t of that level times u", () => {
  const combined = combine([{ part: "repeats", error: "a", estimate: "a", u: 2, dof: 3 }]);
  for (const level of [0.9, 0.99, 1 - 0.0455 / 10])
    expect(expandedAt(combined, level)).toBeCloseTo(2 * studentT(3, level), 12);
  expect(expandedAt(combined, 0.954499736103642)).toBe(combined.expanded);
});
test("sensitivities of a product", () => {
  const [a, b] = sensitivities(([x, y]) => x! ** 2 * y!, [3, 5]);
  expect(a).toBeCloseTo(30, 6);
  expect(b).toBeCloseTo(9, 6);
});

describe("range factor", () => {
  // d₂ = ∫ 1 − Φⁿ − (1 − Φ)ⁿ dx, from the definition of the mean range; published to three decimals.
  const normal = (x: number) => {
    const t = studentTail(Math.abs(x));
    return x >= 0 ? 1 - t : t;
  };
  const studentTail = (x: number) => {
    let sum = 0;
    const step = (12 - x) / 4000;
    for (let k = 0; k < 4000; k++) sum += Math.exp(-((x + (k + 0.5) * step) ** 2) / 2);
    return (sum * step) / Math.sqrt(2 * Math.PI);
  };
  const table = Array.from({ length: 801 }, (_, k) => normal(-8 + k * 0.02));
  test.each([2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 15, 20, 25])("d₂ of %i", (n) => {
    const d2 = table.reduce((sum, p) => sum + 0.02 * (1 - p ** n - (1 - p) ** n), 0);
    expect(Math.abs(1 / rangeToDeviation(1, n)!.s - d2)).toBeLessThan(0.0006);
  });
  // Duncan, Quality Control and Industrial Statistics, table of d₂* (from memory).
  test.each([
    [5, 3.8],
    [10, 7.7],
    [20, 13.4],
  ])("degrees of freedom of a range of %i", (n, nu) =>
    expect(Math.abs(rangeToDeviation(1, n)!.dof - nu)).toBeLessThan(0.1),
  );
  test("a single reading has no range", () => expect(rangeToDeviation(1, 1)).toBeUndefined());
});
