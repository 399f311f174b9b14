import { describe, expect, test } from "vitest";
import type { ShelfEntry } from "../../../src/commands/shelf/shelf-entry.ts";
import { parseCondition, parseOrder } from "../../../src/commands/shelf/where.ts";
import { IMPERIAL, METRIC } from "../../../src/model/display-units.ts";

const entry = (number: string, valve?: number, more: Partial<ShelfEntry> = {}): ShelfEntry => ({
  file: `${number}.yaml`,
  number,
  head: "Two-valve alloy four",
  issued: "2026-03-18",
  intake: { valves: 1, ports: 1, compared: [], ...(valve !== undefined && { valve_diameter_m: valve }) },
  ...more,
});

describe("where", () => {
  test.each([
    ["intake.valve>=42mm", true],
    ["intake.valve >= 1.654in", true],
    ["intake.valve>42.01 mm", false],
    ["intake.valve=1.654", true],
    ["intake.valve!=1.654 in", false],
    ["head~ALLOY", true],
    ["head~wedge", false],
    ["head=two-valve alloy four", true],
    ["issued>=2026-03", true],
    ["issued<=2026-03", true],
    ["issued<2026-03", false],
    ["intake.pinch>0", false],
    ["bore<9 in", false],
  ])("%s: %s", (typed, met) => {
    expect(parseCondition(typed, IMPERIAL)(entry("1", 0.04201))).toBe(met);
  });

  test.each([
    ["intake.valve", "takes a key, a sign and a value"],
    ["inteke.valve>1mm", "did you mean `intake.valve`?"],
    ["valve>1mm", "did you mean `intake.valve` or `exhaust.valve`?"],
    ["intake.valve>1 cfm", "`cfm` is the unit of a flow"],
    ["intake.valve~1", "is a number"],
    ["constructor=1", "no key of the shelf"],
    ["__proto__=1", "no key of the shelf"],
  ])("%s is wrong use: %s", (typed, why) => {
    expect(() => parseCondition(typed, METRIC)).toThrow(why);
  });
});

describe("order", () => {
  const shelf = [entry("10", 0.03), entry("9", undefined), entry("2", 0.05)];
  const sorted = (typed: string) => shelf.toSorted(parseOrder(typed)).map(({ number }) => number);

  test("numbers in names go by their size", () => expect(sorted("number")).toEqual(["2", "9", "10"]));
  test("what is not known comes last either way", () => {
    expect(sorted("intake.valve")).toEqual(["10", "2", "9"]);
    expect(sorted("intake.valve:desc")).toEqual(["2", "10", "9"]);
  });
  test("a slip is pointed out", () => {
    expect(() => parseOrder("intake.peek")).toThrow("did you mean `intake.peak`?");
    expect(() => parseOrder("number:up")).toThrow(":desc");
  });
});
