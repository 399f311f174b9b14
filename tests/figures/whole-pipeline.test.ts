import { describe, expect, test } from "vitest";
import type { Figures } from "../../src/figures/figures.ts";
import { demoFigures } from "./demo-figures.ts";
import { fullFigures } from "./full-figures.ts";
import { fc } from "./seeded.ts";
import { workOutText } from "./work-out.ts";

type Leaf = readonly [path: string, value: unknown];

/** Every number, word and mark of the figures with its path. Phrases in display units and places in a text are left out. */
function leavesOf(value: unknown, path = ""): Leaf[] {
  if (typeof value !== "object" || value === null) return [[path, value]];
  return Object.entries(value).flatMap(([key, inner]) =>
    ["warnings", "differences", "conditions"].includes(key) ? [] : leavesOf(inner, `${path}/${key}`),
  );
}

/** Where two figures differ by more than a billionth. */
function differing(one: Figures, other: Figures): string[] {
  const [left, right] = [leavesOf(one), leavesOf(other)];
  const lacking = (from: readonly Leaf[], within: readonly Leaf[]) =>
    from.map(([path]) => path).filter((path) => !within.some(([other]) => other === path));
  const alone = [...lacking(left, right), ...lacking(right, left)];
  if (alone.length > 0) return alone.map((path) => `${path}: in one only`);
  return left.flatMap(([path, value], k) => {
    const twin = right[k]![1];
    if (typeof value !== "number" || typeof twin !== "number")
      return value === twin ? [] : [`${path}: ${value}, ${twin}`];
    const off = Math.abs(value - twin);
    // A share of a budget may be the remainder of what all but cancels: it is part of 1.
    const least = path.includes("/parts/") ? 1e-9 : 1e-18;
    return off <= 1e-9 * Math.max(Math.abs(value), Math.abs(twin)) + least ? [] : [`${path}: ${value}, ${twin}`];
  });
}

/** As many digits as a job file takes. */
const typed = (value: number) => `${Number(value.toPrecision(14))}`;

/** How a shop writes what was measured in inches, cfm, inches of water and degrees Fahrenheit. */
type Hand = {
  readonly units: string;
  readonly length: (inches: number) => string;
  readonly area: (squareInches: number) => string;
  readonly volume: (cc: number) => string;
  readonly flow: (cfm: number) => string;
  readonly pressure: (inchesOfWater: number) => string;
  readonly air: (fahrenheit: number, inchesOfMercury: number) => string;
  readonly speed: (feetPerSecond: number) => string;
  readonly powerPerFlow: (hpPerCfm: number) => string;
};
const IMPERIAL: Hand = {
  units:
    "{ length: in, area: in2, volume: in3, flow: cfm, pressure: inH2O, temperature: degF, speed: ft/s, force: lbf, power: hp }",
  length: typed,
  area: typed,
  volume: (cc) => typed(cc / 2.54 ** 3),
  flow: typed,
  pressure: typed,
  air: (fahrenheit, inHg) => `temperature: ${fahrenheit}, pressure: ${inHg} inHg`,
  speed: typed,
  powerPerFlow: (value) => `${value} hp/cfm`,
};
// NIST SP 811 (2008), B.8, by definition: the inch, the cubic foot, water and mercury of conventional density, 550 ft lbf/s.
const [CFM_IN_LITRES, INCH_OF_WATER, INCH_OF_MERCURY] = [(0.3048 ** 3 * 1000) / 60, 0.24908891, 3.386388640341];
const HORSEPOWER_KW = (550 * 0.3048 * 0.45359237 * 9.80665) / 1000;
const METRIC: Hand = {
  units:
    "{ length: mm, area: mm2, volume: cc, flow: l/s, pressure: kPa, temperature: degC, speed: m/s, force: N, power: kW }",
  length: (inches) => typed(inches * 25.4),
  area: (squareInches) => typed(squareInches * 645.16),
  volume: typed,
  flow: (cfm) => typed(cfm * CFM_IN_LITRES),
  pressure: (inches) => typed(inches * INCH_OF_WATER),
  air: (fahrenheit, inHg) =>
    `temperature: ${typed(((fahrenheit - 32) * 5) / 9)}, pressure: ${typed(inHg * INCH_OF_MERCURY)}`,
  speed: (feet) => typed(feet * 0.3048),
  powerPerFlow: (value) => `${typed((value * HORSEPOWER_KW) / CFM_IN_LITRES)} kW/(l/s)`,
};

type Rows = readonly (readonly [lift: number, intake: string | number, exhaust: string | number])[];

const table = (hand: Hand, rows: Rows, indent: string): string => {
  const cell = (typed: string | number) => {
    if (typeof typed === "number") return hand.flow(typed);
    const mark = typed.at(-1)!;
    return typed === "-" ? typed : `${hand.flow(Number(typed.slice(0, -1)))}${mark}`;
  };
  const lines = rows.map(([lift, intake, exhaust]) => `${hand.length(lift)} ${cell(intake)} ${cell(exhaust)}`);
  return ["lift intake exhaust", ...lines].map((line) => `${indent}${line}`).join("\n");
};

/** One job, with most that figures are made from, in the hand of a shop; `by` moves every flow of the finished head. */
const jobIn = (hand: Hand, by = 1): string => {
  const { length, area, volume, flow, pressure, air } = hand;
  const received: Rows = [
    [0.1, 40.1, 33],
    [0.2, 78.4, 63.1],
    [0.3, 111.5, "-"],
    [0.4, "135?", 97.2],
    [0.5, 146.3, 103.4],
    [0.2, 78.9, "62.4!"],
  ];
  const finished: Rows = [
    [0.1, 43 * by, 33],
    [0.2, 84 * by, 64.1],
    [0.3, 121 * by, 84],
    [0.4, 142 * by, 98.2],
    [0.5, 158 * by, 108.4],
  ];
  return `job: "2026-014"
issued: 2026-03-18
customer: { name: A. Miller }
head: { name: Wedge four }
units: ${hand.units}
engine:
  cylinders: 4
  bore: ${length(3.425)}
  stroke: ${length(2.953)}
  rod_length: ${length(5.39)}
  gasket: { bore: ${length(3.5)}, compressed: ${length(0.041)} }
  piston: { dish: ${volume(5)}, below_deck: ${length(0.02)} }
  rpm: { from: 2500, to: 7000 }
  intake_cam: { net_lift: ${length(0.42)}, duration: 246 deg, at: ${length(0.05)}, of: valve }
  exhaust_cam: { lobe_lift: ${length(0.288)}, rocker: 1.5, lash: ${length(0.012)}, duration: 240 deg, at: ${length(0.05)}, of: follower }
bench:
  name: One
  test_pressure: ${pressure(25)}
  meter: volumetric
  # In one unit for both: its last digit counts as it is typed.
  leakage: { intake: 0.4 cfm, exhaust: 0.3 cfm, test_pressure: ${pressure(10)} }
  air: { ${air(70, 29.8)}, humidity: 45 % }
  accuracy: 1.5 %
  repeatability: { spread: 1.2 %, of: 5 }
  remount: 1.4 %
  lift_setting: ${length(0.003)}
  resolution: ${flow(0.1)}
report:
  test_pressure: ${pressure(28)}
  lifts: [${length(0.15)}, low, mid, high, cam, peak]
  pinch_limit: ${hand.speed(610)}
  power_per_flow: ${hand.powerPerFlow(0.257)}
springs: { installed_height: ${length(1.56)}, open_at: ${length(0.43)}, coil_bind: ${length(1.02)}, retainer_to_seal: ${length(0.51)} }
stages:
  - name: As received
    intake: { valve: ${length(1.654)}, stem: ${length(0.315)}, throat: ${length(1.4)}, seat: { angle: 45 deg, width: ${length(0.06)} }, pinch: ${area(1.3)} }
    exhaust: { valve: ${length(1.378)}, stem: ${length(0.315)}, throat: ${length(1.16)}, seat: { angle: 30 deg, width: ${length(0.075)}, outside: ${length(1.36)} } }
    chambers: { 1: ${volume(43)}, 2: ${volume(43.4)} }
    flow: |
${table(hand, received, "      ")}
  - name: Finished
    intake: { valve: ${length(1.732)}, throat: ${length(1.525)}, pinch: { width: ${length(0.92)}, height: ${length(1.62)}, corner: ${length(0.2)} }, port_volume: ${volume(98)}, port_length: ${length(4)} }
    exhaust: { throat: ${length(1.2)} }
    runs:
      - cylinder: 1
        flow: |
${table(hand, finished, "          ")}
      - cylinder: 3
        flow: |
${table(
  hand,
  finished.map(([lift, intake, exhaust]) => [lift, Number(intake) * 1.01, Number(exhaust) * 0.99] as const),
  "          ",
)}
      - cylinder: 1
        set: with pipe
        bench: { exhaust_pipe: { diameter: ${length(1.75)}, length: ${length(8)} } }
        flow: |
${table(hand, finished, "          ")}
`;
};
/** Units stand in the job; what a shop states of its own is in whatever hand it likes. */
const SHOP = "shop: { name: Quayside Heads }\n";

describe("a metric and an imperial copy of one job", () => {
  test("give the same figures to a billionth, and all there is to compare", () => {
    const [imperial, metric] = [workOutText(jobIn(IMPERIAL), SHOP), workOutText(jobIn(METRIC), SHOP)];
    expect(imperial.model.units.length).toBe("in");
    expect(metric.model.units.length).toBe("mm");
    expect(leavesOf(imperial.figures).length).toBeGreaterThan(700);
    expect(differing(imperial.figures, metric.figures)).toEqual([]);
    for (const word of [
      "supported_power_W",
      "z_limit_rpm",
      "pinch_limit_rpm",
      "compression_ratio",
      "mean_change_verdict",
    ])
      expect(JSON.stringify(imperial.figures)).toContain(`"${word}"`);
  });
  test("do so whatever flows", () =>
    fc.assert(
      fc.property(fc.double({ min: 0.97, max: 1.05, noNaN: true }), (by) => {
        const [imperial, metric] = [IMPERIAL, METRIC].map((hand) => workOutText(jobIn(hand, by), SHOP));
        expect(differing(imperial!.figures, metric!.figures)).toEqual([]);
      }),
      { numRuns: 6 },
    ));
  test("a copy with a small change differs", () => {
    const [one, other] = [workOutText(jobIn(METRIC), SHOP), workOutText(jobIn(METRIC, 1 + 1e-8), SHOP)];
    expect(differing(one.figures, other.figures).length).toBeGreaterThan(20);
  });
});

describe("the order in which runs are typed", () => {
  const run = (cylinder: number, mount: number, cells: readonly string[]) =>
    [
      `      - cylinder: ${cylinder}`,
      `        mount: ${mount}`,
      "        flow: |",
      "          lift intake",
      ...cells.map((cell, k) => `          0.${k + 1}00 ${cell}`),
    ].join("\n");
  const job = (runs: readonly string[]) => `job: J-1
issued: 2026-03-18
customer: { name: A. Miller }
head: { name: Wedge }
units: { length: in, flow: cfm, pressure: inH2O }
bench: { test_pressure: 28, remount: 1 % }
stages:
  - name: As received
    intake: { valve: 1.654 }
    runs:
${runs.join("\n")}
  - name: Finished
    flow: |
      lift intake
      0.100 44
      0.200 86
      0.300 121
`;
  const flow = fc.double({ min: 0.9, max: 1.1, noNaN: true });
  const cells = fc
    .tuple(
      flow,
      flow,
      flow,
      fc.constantFrom("", "?", "!"),
      fc.constantFrom("~118.5 # dial", "~119 # slipped", "-", "- # smudged"),
    )
    .map(([a, b, c, mark, last]) => [(40 * a).toFixed(2), `${(80 * b).toFixed(2)}${mark}`, (112 * c).toFixed(2), last]);
  const four = fc.tuple(cells, cells, cells, cells);
  test("changes nothing", () =>
    fc.assert(
      fc.property(four, fc.shuffledSubarray([0, 1, 2, 3], { minLength: 4 }), (sweeps, order) => {
        const runs = sweeps.map((typed, k) => run([1, 1, 2, 5][k]!, k + 1, typed));
        const one = workOutText(job(runs), SHOP).figures;
        const other = workOutText(job(order.map((k) => runs[k]!)), SHOP).figures;
        expect(differing(one, other)).toEqual([]);
      }),
      { numRuns: 25 },
    ));
});

describe("scaling", () => {
  test("gas speed at the pinch goes with one over its area, and its engine speed with the area", () =>
    fc.assert(
      fc.property(fc.double({ min: 1.1, max: 1.9, noNaN: true }), (size) => {
        const at = (squareInches: number) => {
          const text = jobIn(IMPERIAL).replace("pinch: 1.3 ", `pinch: ${typed(squareInches)} `);
          return workOutText(text, SHOP).figures.stages[0]!;
        };
        const [small, large] = [at(size), at(size * 1.1)];
        expect(
          small.intake!.readings[0]!.pinch_velocity_m_s! / large.intake!.readings[0]!.pinch_velocity_m_s!,
        ).toBeCloseTo(1.1, 9);
        expect(large.engine!.pinch_limit_rpm! / small.engine!.pinch_limit_rpm!).toBeCloseTo(1.1, 9);
      }),
      { numRuns: 5 },
    ));
});

describe("every number of every demo job, and of a job with every key", () => {
  test.each([
    ...demoFigures.map(({ name, figures }) => ({ name, figures })),
    ...fullFigures.map(({ figures }, k) => ({ name: `all keys ${k}`, figures })),
  ])("$name is finite, and survives being printed", ({ figures }) => {
    const numbers = leavesOf(figures).filter(([, value]) => typeof value === "number");
    expect(numbers.length).toBeGreaterThan(10);
    for (const [path, value] of numbers) expect(Number.isFinite(value), path).toBe(true);
    expect(JSON.parse(JSON.stringify(figures))).toEqual(figures);
  });
});
