import { describe, expect, test } from "vitest";
import { findDeviations } from "../../../src/figures/checks/deviations.ts";
import { readAllSweeps } from "../../../src/figures/sweep/read-all-sweeps.ts";
import { metres } from "../../../src/units/quantity.ts";
import { modelOf, type Row } from "../model-fixture.ts";

const FLOWS = [40.1, 78.4, 111.5, 133, 146.3];
/** What is found in five readings of a 1.654 in valve, with one of them changed. */
function found(at: number, typed: number) {
  const rows = FLOWS.map((flow, k): Row => [(k + 1) / 10, k === at ? typed : flow]);
  const model = modelOf({ lifts: "in", stages: [{ flow: rows }] });
  const sweep = readAllSweeps(model).stages[0]!.intake!;
  return findDeviations({ model, sweep, diameter: metres(1.654 * 0.0254) }).map(({ point, meant }) => [
    Math.round(point.lift / 0.00254) / 10,
    meant,
  ]);
}

describe("the reading that is wrong, not its neighbour", () => {
  test("swapped digits that hardly move it, and throw the next off its trend", () => {
    expect(found(2, 115.1)).toEqual([[0.3, "111.5"]]);
  });
  test("of the last but one: nothing is said of the last, beyond the gap", () => {
    expect(found(3, 313).map(([lift]) => lift)).toEqual([0.4]);
  });
  test("good readings: none", () => {
    expect(found(2, 111.5)).toEqual([]);
  });
});
