import { describe, expect, test } from "vitest";
import { type Counts, countClaims } from "./count-claims.ts";
import { type Change, GOOD, type SimulatedBench, SLOPPY } from "./simulated-bench.ts";

/** Comparisons of a bench where nothing changed, and where something did. */
const UNCHANGED = 4000;
const CHANGED = 1000;

const ALL = ["repeatability", "remount"] as const;
type Named = SimulatedBench & { readonly name: string };
const bench = (name: string, more: Partial<SimulatedBench>): Named => ({
  name,
  scatter: GOOD,
  sweeps: 1,
  mounts: 1,
  states: [],
  dialZero: true,
  ...more,
});

const STATED = bench("all stated", { states: ALL });
const ALLOWED = bench("two sweeps, nothing stated", { sweeps: 2 });
const SLOPPY_STATED = bench("sloppy, all stated", { scatter: SLOPPY, states: ALL });
const SLOPPY_ALLOWED = bench("sloppy, two sweeps, nothing stated", { scatter: SLOPPY, sweeps: 2 });
/** A choice: tests/soak has every bench of one to five sweeps and one to three mounts, whatever is stated. */
const BENCHES: readonly Named[] = [
  STATED,
  ALLOWED,
  SLOPPY_STATED,
  SLOPPY_ALLOWED,
  bench("five sweeps, all stated", { sweeps: 5, states: ALL }),
  bench("two mounts of two sweeps, re-mounting stated", { mounts: 2, sweeps: 2, states: ["remount"] }),
  bench("three mounts, nothing stated", { mounts: 3 }),
  bench("two sweeps on two ranges, all stated", { sweeps: 2, states: ALL, twoRanges: true }),
  bench("sloppy, three mounts, nothing stated", { scatter: SLOPPY, mounts: 3 }),
];

const print = (name: string, { jobs, ...counts }: Counts) => {
  const shares = Object.entries(counts).map(([what, n]) => `${what} ${((100 * n) / jobs).toFixed(1)} %`);
  process.stdout.write(`${name}: ${shares.join(", ")}\n`);
};
/** Three standard deviations of a share that is counted in so many jobs. */
const sigmas = (share: number, jobs: number) => 3 * Math.sqrt((share * (1 - share)) / jobs);

describe("where nothing changed, no more is claimed than promised", () => {
  test.each(BENCHES)("$name", ({ name, ...one }) => {
    const counts = countClaims(one, "none", UNCHANGED, 1);
    print(`no change, ${name}`, counts);
    expect(counts.judged).toBe(UNCHANGED);
    expect(counts.meanCalled / UNCHANGED).toBeLessThanOrEqual(0.05 + sigmas(0.05, UNCHANGED));
    expect(counts.anyLiftCalled / UNCHANGED).toBeLessThanOrEqual(0.07);
    expect(counts.covered / UNCHANGED).toBeGreaterThanOrEqual(0.94);
    expect(counts.flatSpots / UNCHANGED).toBeLessThanOrEqual(0.05);
  });
});

describe("what changed is found", () => {
  const shareOf = (one: SimulatedBench, name: string, change: Change, what: keyof Counts) => {
    const counts = countClaims(one, change, CHANGED, 2);
    print(`${change}, ${name}`, counts);
    return counts[what] / CHANGED;
  };
  test.each([
    { ...STATED, least: 0.95 },
    { ...ALLOWED, least: 0.95 },
    { ...SLOPPY_STATED, least: 0.8 },
    { ...SLOPPY_ALLOWED, least: 0.8 },
  ])("5 % everywhere, $name", ({ name, least, ...one }) =>
    expect(shareOf(one, name, "5 % everywhere", "meanCalled")).toBeGreaterThanOrEqual(least),
  );
  test("3 % everywhere is found by the allowance in half of the jobs, and in most where re-mounting is stated", () => {
    expect(shareOf(STATED, STATED.name, "3 % everywhere", "meanCalled")).toBeGreaterThanOrEqual(0.8);
    const allowed = shareOf(ALLOWED, ALLOWED.name, "3 % everywhere", "meanCalled");
    expect(allowed).toBeGreaterThan(0.4);
    expect(allowed).toBeLessThan(0.6);
  });
  test.each([STATED, ALLOWED])("curves that cross by 4 %, $name", ({ name, ...one }) =>
    expect(shareOf(one, name, "crossing by 4 %", "anyLiftCalled")).toBeGreaterThanOrEqual(0.95),
  );
  test.each([STATED, ALLOWED, SLOPPY_STATED])("a plateau 0.1 in long, $name", ({ name, ...one }) =>
    expect(shareOf(one, name, "plateau", "plateauFound")).toBeGreaterThanOrEqual(0.95),
  );
  test.each([STATED, ALLOWED, SLOPPY_STATED])(
    "a change above mid lift is seldom claimed of lifts that did not change, $name",
    ({ name, ...one }) => expect(shareOf(one, name, "above mid lift", "unchangedLiftCalled")).toBeLessThanOrEqual(0.1),
  );
});

test("with nothing read twice and no repeatability stated, nothing is judged", () => {
  const { name: _, ...one } = bench("nothing", { states: ["remount"] });
  const counts = countClaims(one, "5 % everywhere", 100, 3);
  expect(counts).toMatchObject({ judged: 0, meanCalled: 0, anyLiftCalled: 0, peakCalled: 0, flatSpots: 0 });
});
