import { describe, expect, test } from "vitest";
import { disk } from "../../src/io/disk.ts";
import { expectPinned } from "../pinned.ts";
import { fullFigures } from "./full-figures.ts";
import { type WorkedOut, workOut } from "./work-out.ts";

/** Every figure and mark with its path, to seven digits; what is absent has no line, so a key without a value has one. */
function linesOf(value: unknown, path = ""): string[] {
  if (typeof value === "number") return [`${path}: ${Number(value.toPrecision(7))}`];
  if (typeof value !== "object" || value === null) return [`${path}: ${JSON.stringify(value) ?? "undefined"}`];
  const entries = Object.entries(value);
  if (entries.length === 0) return [`${path}: ${Array.isArray(value) ? "[]" : "{}"}`];
  // A list of numbers is one line.
  if (Array.isArray(value) && value.every((one) => typeof one === "number"))
    return [`${path}: ${value.map((one) => Number(one.toPrecision(7))).join(" ")}`];
  return entries.flatMap(([key, inner]) => linesOf(inner, `${path}/${key}`));
}

const toldOf = ({ figures, told }: WorkedOut) => [
  ...told.map(({ severity, code, message }) => `${severity} ${code}: ${message}`),
  ...linesOf(figures),
];
const job = (name: string): WorkedOut => workOut(new URL(`../../jobs/${name}`, import.meta.url).pathname, disk);

describe("figures come out as they did", () => {
  test.each([
    ["every-key", () => fullFigures[0]!],
    ["alder-lane-2026-014", () => job("alder-lane/2026-014.yaml")],
    ["fennick-f-231", () => job("fennick/f-231.yaml")],
  ] as const)("%s", (name, worked) => {
    const lines = toldOf(worked());
    expectPinned(new URL(`pinned/${name}.txt`, import.meta.url), lines);
    expect(lines.length).toBeGreaterThan(200);
  });
  test("every-key on a bench whose check plate is off: what differs", () => {
    const before = new Set(toldOf(fullFigures[0]!));
    const lines = toldOf(fullFigures[1]!).filter((line) => !before.has(line));
    expectPinned(new URL("pinned/every-key-plate-off.txt", import.meta.url), lines);
  });
});
