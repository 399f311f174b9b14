import { expect, test } from "vitest";
import { formatFigures } from "../../src/commands/figures.ts";
import { computeFigures } from "../../src/figures/compute-figures.ts";
import { fullModel } from "../sheet/sheet-fixture.ts";

const model = fullModel();
const figures = computeFigures(model);
const lines = formatFigures(figures, model.units).split("\n");

/** Tables of budgets: the rows under each head, to the next line that is no row. */
const tables = lines.flatMap((line, i) => {
  if (!line.startsWith("what each ± is made of")) return [];
  const rows = lines.slice(i + 2);
  const end = rows.findIndex((row) => !row.startsWith("  ") || row.includes("flowed"));
  return [{ head: lines[i + 1]!, rows: rows.slice(0, end < 0 ? undefined : end) }];
});

test("`figures` prints a budget for each side of each stage and for each comparison", () => {
  expect(tables).toHaveLength(6);
  for (const { head } of tables) expect(head).toMatch(/\bu +dof +k +re-mounting +repeats +lift setting/);
});

test("parts are percent of u², and sum to a hundred but for their rounding", () => {
  const rows = tables.flatMap(({ rows }) => rows);
  expect(rows.length).toBeGreaterThan(40);
  for (const row of rows) {
    const [, parts] = /(?:∞|\d+(?:\.\d)?) +\d\.\d\d +([\d ]+)$/.exec(row) ?? [];
    if (parts === undefined) throw new Error(row);
    const sum = parts
      .trim()
      .split(/ +/)
      .reduce((total, part) => total + Number(part), 0);
    expect(Math.abs(sum - 100), row).toBeLessThanOrEqual(3);
  }
});

test("the mean change has the budget of the JSON", () => {
  const { mean_change_budget: budget } = figures.comparisons[0]!;
  const row = tables[4]!.rows.find((one) => one.trim().startsWith("mean"))!;
  expect(row).toContain(`${(budget!.u * 100).toFixed(2)} %`.replace(" ", "\u00a0"));
  expect(row).toContain(budget!.k.toFixed(2));
  expect(row).toMatch(new RegExp(` ${(budget!.parts.remounting! * 100).toFixed(0)} `));
});
