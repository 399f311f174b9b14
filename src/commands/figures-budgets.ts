import type { Budget, Comparison, SideFigures } from "../figures/figures.ts";
import type { DisplayUnits } from "../model/model.ts";
import { show, showNumber } from "../units/show.ts";
import { formatTable } from "./format-table.ts";

const PARTS = [
  ["remounting", "re-mounting"],
  ["repeats", "repeats"],
  ["lift_setting", "lift setting"],
  ["resolution", "resolution"],
  ["accuracy", "accuracy"],
  ["leakage", "leakage"],
  ["conversion", "conversion"],
] as const satisfies readonly (readonly [keyof Budget["parts"], string])[];

/** A result whose ± is explained: its name, and its standard uncertainty as text. */
type Explained = { readonly of: string; readonly u: (u: number) => string; readonly budget: Budget | undefined };

/** The budgets of one side of a stage: each reading, the peak, the mean, the fall after the peak. */
export function sideBudgets(
  { readings, peak, mean_flow: mean, after_peak: fall }: SideFigures,
  units: DisplayUnits,
  width: number,
) {
  return budgetTable(width, [
    ...readings.map(({ lift_m, budget }) => ({ of: liftText(lift_m, units), u: flowFormatter(units), budget })),
    { of: "peak", u: flowFormatter(units), budget: peak?.budget },
    { of: "mean", u: flowFormatter(units), budget: mean?.budget },
    { of: "after the peak", u: percent, budget: fall?.budget },
  ]);
}

/** The budgets of one comparison: each change, that of the peak, that of the mean. */
export function comparisonBudgets(
  { changes, peak_change: peak, mean_change_budget: mean }: Comparison,
  units: DisplayUnits,
  width: number,
) {
  return budgetTable(width, [
    ...changes.map(({ lift_m, budget }) => ({ of: liftText(lift_m, units), u: flowFormatter(units), budget })),
    { of: "peak", u: flowFormatter(units), budget: peak?.budget },
    { of: "mean", u: percent, budget: mean },
  ]);
}

const liftText = (lift: number, units: DisplayUnits) => showNumber(lift, "length", units.length);
const flowFormatter = (units: DisplayUnits) => (u: number) => show(u, "flow", units.flow);
const percent = (u: number) => show(u, "ratio", "%", 2);

/** A row a budget: standard uncertainty u, degrees of freedom, k, and each part in percent of u². */
function budgetTable(width: number, explained: readonly Explained[]): string[] {
  const rows = explained.flatMap(({ of, u, budget }) => (budget ? [{ of, u, budget }] : []));
  if (rows.length === 0) return [];
  const parts = PARTS.filter(([key]) => rows.some(({ budget }) => budget.parts[key] !== undefined));
  const table = rows.map(({ of, u, budget }) => [
    of,
    u(budget.u),
    budget.dof === undefined ? "∞" : budget.dof.toFixed(budget.dof < 100 ? 1 : 0),
    budget.k.toFixed(2),
    ...parts.map(([key]) => percentOf(budget.parts[key])),
    "",
  ]);
  return [
    "what each ± is made of: ± = k × u; parts in % of u²",
    formatTable(
      ["", "u", "dof", "k", ...parts.map(([, name]) => name), ""],
      table,
      width,
      parts.map((_, part) => 4 + part).toReversed(),
    ),
  ];
}

const percentOf = (share: number | undefined): string => (share === undefined ? "" : (share * 100).toFixed(0));
