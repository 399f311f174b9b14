import { describe, expect, test } from "vitest";
import { differenceText, formatDifferences } from "../../../src/commands/shelf/difference-text.ts";
import { distance } from "../../../src/commands/shelf/distance.ts";
import { FEATURES } from "../../../src/commands/shelf/features.ts";
import { findNearest } from "../../../src/commands/shelf/nearest.ts";
import type { ShelfEntry, SoundEntry } from "../../../src/commands/shelf/shelf-entry.ts";
import { METRIC } from "../../../src/model/display-units.ts";
import { fc } from "../../figures/seeded.ts";

const head = (more: Partial<ShelfEntry> = {}): SoundEntry => ({
  file: "a.yaml",
  kind: "job",
  number: "A",
  issued: "2026-01-01",
  head: "A head",
  stage: "Finished",
  may_compare: "yes",
  bore_m: 0.086,
  intake: { valves: 1, ports: 1, valve_diameter_m: 0.042, throat_m: 0.036, pinch_area_m2: 1e-3, compared: [] },
  exhaust: { valves: 1, ports: 1, valve_diameter_m: 0.035, compared: [] },
  conditions: { test_pressure_Pa: 6974, intake_entry: "clay radius" },
  ...more,
});

/** A distance over one feature that differs: weights of all that both know. */
const knownWeights = (names: (name: string) => boolean) =>
  FEATURES.filter(({ name }) => names(name)).reduce((sum, { weight }) => sum + weight, 0);
const KNOWN = (name: string) => !["exhaust throat", "exhaust pinch", "bore fixture"].includes(name);

describe("distance", () => {
  // By hand: valve 42 → 42.84 mm is ln(1.02) ÷ 0.02 = 0.990 of another size, at weight 4 of all that is known.
  test("worked value", () => {
    const other = head({ intake: { ...head().intake!, valve_diameter_m: 0.04284 } });
    const by = Math.log(1.02) / 0.02;
    expect(distance(head(), other).distance).toBeCloseTo(Math.sqrt((4 * by * by) / knownWeights(KNOWN)), 12);
  });

  test("a feature that only one job states does not count", () => {
    const { pinch_area_m2: _, ...bare } = head().intake!;
    const by = Math.log(1.02) / 0.02;
    const larger = { valve_diameter_m: 0.04284 };
    expect(distance(head(), head({ intake: bare })).distance).toBe(0);
    const found = distance(head(), head({ intake: { ...bare, ...larger } }));
    const both = knownWeights((name) => KNOWN(name) && name !== "intake pinch");
    expect(found.distance).toBeCloseTo(Math.sqrt((4 * by * by) / both), 12);
    expect(found.known).toBeCloseTo(both / knownWeights(KNOWN), 12);
    // Of two that are as near, the one of which more is known comes first.
    const comparing = { path: "/j/here.yaml", root: "/j", job: {} as never };
    const shelf = [head({ file: "a.yaml", intake: bare }), head({ file: "b.yaml" })];
    const near = findNearest(head(), shelf, { folder: "/j", comparing, units: METRIC, most: 2 });
    expect(near.map(({ entry }) => entry.file)).toEqual(["b.yaml", "a.yaml"]);
  });

  const flowed = (conditions: Partial<NonNullable<ShelfEntry["conditions"]>>) =>
    head({ conditions: { ...head().conditions!, ...conditions } });

  // 28 inH2O is 6974.5 Pa: 28.1 is 0.36 % more, 28.3 is 1.07 % more and half of that in flow.
  test.each([
    [6999.4, 0],
    [7049.2, Math.log(7049.2 / 6974) / 0.25],
  ])("a test pressure of %d Pa beside 6974 is apart by %d", (pressure, by) =>
    expect(
      distance(head(), flowed({ test_pressure_Pa: pressure })).byFeature.find(
        ({ feature }) => feature.name === "test pressure",
      )?.by,
    ).toBeCloseTo(by, 12),
  );

  test.each(["Clay radius", "clay  radius", "clay-radius", " CLAY\u00a0RADIUS. "])("%j is a clay radius", (entry) =>
    expect(distance(head(), flowed({ intake_entry: entry })).distance).toBe(0),
  );
  test("a turned radius is another entry", () =>
    expect(distance(head(), flowed({ intake_entry: "turned radius" })).distance).toBeGreaterThan(0));

  const piped = (diameter?: number, length?: number) =>
    flowed({ exhaust_pipe: { ...(diameter && { diameter_m: diameter }), ...(length && { length_m: length }) } });
  test.each([
    ["1 1/2 by 8 in", piped(0.0381, 0.2032), true],
    ["a hair of rounding", piped(0.03804, 0.2), true],
    ["a length that nobody stated", piped(0.038), true],
    ["half a size larger", piped(0.0395, 0.2), false],
    ["a longer one", piped(0.038, 0.25), false],
    ["no pipe", head(), false],
  ])("38 by 200 mm and %s are one pipe or not", (_, other, alike) => {
    const far = distance(piped(0.038, 0.2), other).distance;
    if (alike) expect(far).toBe(0);
    else expect(far).toBeGreaterThan(0);
  });

  const length = fc.option(fc.double({ min: 0.02, max: 0.06, noNaN: true }), { nil: undefined });
  const side = fc.record({
    valves: fc.integer({ min: 1, max: 3 }),
    ports: fc.integer({ min: 1, max: 2 }),
    d: length,
    throat: length,
  });
  const anyHead = fc
    .record({
      intake: side,
      exhaust: side,
      bore: length,
      entry: fc.option(fc.constantFrom("clay radius", "none"), { nil: undefined }),
    })
    .map(({ intake, exhaust, bore, entry }) => {
      const port = ({ valves, ports, d, throat }: typeof intake) => ({
        valves,
        ports,
        compared: [],
        ...(d && { valve_diameter_m: d }),
        ...(throat && { throat_m: throat }),
      });
      return head({
        intake: port(intake),
        exhaust: port(exhaust),
        ...(bore ? { bore_m: bore } : {}),
        conditions: { test_pressure_Pa: 6974, ...(entry && { intake_entry: entry }) },
      });
    });

  test("nothing from itself, the same both ways, never negative or without end", () =>
    fc.assert(
      fc.property(anyHead, anyHead, (a, b) => {
        expect(distance(a, a).distance).toBe(0);
        const [to, back] = [distance(a, b).distance, distance(b, a).distance];
        expect(to).toBeCloseTo(back, 12);
        expect(to).toBeGreaterThanOrEqual(0);
        expect(Number.isFinite(to)).toBe(true);
      }),
    ));

  test("the ranking does not depend on the order of the shelf", () =>
    fc.assert(
      fc.property(fc.array(anyHead, { minLength: 2, maxLength: 12 }), anyHead, fc.integer(), (heads, here, seed) => {
        const shelf = heads.map((one, k) => ({ ...one, file: `${k}.yaml` }));
        const comparing = { path: "/j/here.yaml", root: "/j", job: {} as never };
        const rank = (entries: readonly SoundEntry[]) =>
          findNearest(here, entries, { folder: "/j", comparing, units: METRIC, most: 99 }).map(
            ({ entry }) => entry.file,
          );
        const turned = shelf.toSorted(
          (a, b) => ((a.file.charCodeAt(0) * 31 + seed) % 7) - ((b.file.charCodeAt(0) * 31 + seed) % 7),
        );
        expect(rank(turned)).toEqual(rank(shelf));
      }),
      { numRuns: 30 },
    ));
});

describe("words", () => {
  const words = (other: ShelfEntry) =>
    formatDifferences(differenceText(distance(head(), other).byFeature, head(), other, METRIC));

  test("unlike first, what weighs most before; then what is the same", () => {
    const other = head({
      intake: { valves: 1, ports: 1, valve_diameter_m: 0.0423, throat_m: 0.036, compared: [] },
      conditions: { test_pressure_Pa: 6974, intake_entry: "none", exhaust_pipe: { diameter_m: 0.038, length_m: 0.2 } },
    });
    expect(words(other).replaceAll("\u00a0", " ")).toBe(
      "intake entry none against clay radius; with an exhaust pipe 38 by 200 mm; intake valve 0.30 mm larger; same intake throat, exhaust valve, bore, test pressure and number of valves and ports; not compared: intake pinch not measured there",
    );
  });

  test("another number of valves is printed as numbers", () => {
    expect(words(head({ exhaust: { valves: 2, ports: 1, valve_diameter_m: 0.035, compared: [] } }))).toMatch(
      /^2 exhaust valves a cylinder against 1;/,
    );
  });

  test("a test pressure that differs by less than it matters is the same", () => {
    const other = head({ bore_m: 0.09, conditions: { test_pressure_Pa: 6999.4, intake_entry: "clay radius" } });
    expect(words(other)).toMatch(/^bore 4\.00\u00a0mm larger; same .*test pressure/);
  });

  test("a difference that no table shows is none", () => {
    expect(words(head({ bore_m: 0.086000001 }))).toBe("alike in all that is known of both");
  });
});
