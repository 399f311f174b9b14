import { expect, test } from "vitest";
import type { Budget } from "../../src/figures/figures.ts";
import { demoFigures } from "./demo-figures.ts";
import { fullFigures } from "./full-figures.ts";

type Found = { readonly path: string; readonly budget: Budget; readonly expanded: number };

/** Keys under which a ± stands beside its budget. */
const PLUS_MINUS = ["uncertainty_m3_s", "uncertainty", "mean_change_uncertainty_ratio"];

/** Every ± of some figures with its budget, wherever they stand; fails where one of the two is missing. */
function budgetsIn(value: unknown, path = ""): Found[] {
  if (typeof value !== "object" || value === null) return [];
  const here = value as Record<string, unknown>;
  const expanded = PLUS_MINUS.map((key) => here[key]).find((one) => one !== undefined) as number | undefined;
  const budget = (here.budget ?? here.mean_change_budget) as Budget | undefined;
  expect((expanded === undefined) === (budget === undefined), path).toBe(true);
  const own = expanded === undefined || budget === undefined ? [] : [{ path, budget, expanded }];
  return [...own, ...Object.entries(here).flatMap(([key, inner]) => budgetsIn(inner, `${path}/${key}`))];
}

const all = [...demoFigures, ...fullFigures].flatMap(({ figures }) => budgetsIn(figures));

test("each ± has its budget, and is k times its u", () => {
  expect(all.length).toBeGreaterThan(500);
  for (const { path, budget, expanded } of all) {
    expect(Math.abs(budget.k * budget.u - expanded), path).toBeLessThanOrEqual(1e-12 * expanded);
    expect(budget.k, path).toBeGreaterThanOrEqual(2 - 1e-9);
  }
});

test("the parts of each budget sum to 1, and none is below 0", () => {
  for (const { path, budget } of all) {
    const shares = Object.values(budget.parts);
    expect(Math.abs(shares.reduce((sum, share) => sum + share, 0) - 1), path).toBeLessThan(1e-9);
    expect(Math.min(...shares), path).toBeGreaterThan(0);
  }
});

test("every kind of error occurs in some budget", () => {
  const kinds = new Set(all.flatMap(({ budget }) => Object.keys(budget.parts)));
  expect([...kinds].sort()).toEqual([
    "accuracy",
    "conversion",
    "leakage",
    "lift_setting",
    "remounting",
    "repeats",
    "resolution",
  ]);
});
