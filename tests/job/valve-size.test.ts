import { expect, test } from "vitest";
import { loadProject } from "../../src/project/load-project.ts";
import { memoryWorld } from "../project/memory-world.ts";

const said = (unit: string, valves: string) => {
  const text = `job: J-1
issued: 2026-03-18
customer: { name: A. Miller }
head: { name: Wedge }
units: { length: ${unit}, flow: cfm, pressure: inH2O }
bench: { test_pressure: 28, bore_fixture: 86 mm }
stages:
  - name: One
${valves}
    chamber: 43 cc
    flow: |
      lift/in intake
      0.100 40.1
      0.200 78.4
`;
  const { diagnostics } = loadProject("/shop/a.yaml", memoryWorld({ "/shop/a.yaml": text }));
  return diagnostics.map(({ code, note = "", hint = "" }) => [code, note, hint]);
};

test("a valve whose point slipped is said once, and nothing of what is beside it", () => {
  for (const wrong of ["16.54", "165.4", "0.1654"])
    expect(said("in", `    intake: { valve: ${wrong}, throat: 1.4 }`)).toEqual([
      ["job/valve-size", "", "did you mean 1.654 in?"],
    ]);
});

test("valves that are all in another unit are one slip", () => {
  expect(said("mm", "    intake: { valve: 1.654, throat: 1.4 }\n    exhaust: { valve: 1.378 }")).toEqual([
    ["job/valve-size", "and 1 more: these sizes look like inches under another unit", "write length: in under units"],
  ]);
  expect(said("in", "    intake: { valve: 42, throat: 36 }\n    exhaust: { valve: 35 }")[0]![2]).toBe(
    "write length: mm under units",
  );
});

test("the smallest and the largest valves of real heads pass", () => {
  for (const valve of ["8 mm", "60 mm", "150 mm"])
    expect(said("in", `    intake: { valve: ${valve} }`).map(([code]) => code)).not.toContain("job/valve-size");
});
