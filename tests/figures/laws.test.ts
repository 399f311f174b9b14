import { describe, expect, test } from "vitest";
import { type BriefFigures, briefFigures, briefOf } from "../../src/figures/brief-figures.ts";
import { checkFigures, impossibleFigures } from "../../src/figures/check-figures.ts";
import { computeFigures } from "../../src/figures/compute-figures.ts";
import type { Comparison } from "../../src/figures/figures.ts";
import type { BriefSide } from "../../src/figures/side-figures.ts";
import type { Model } from "../../src/model/model.ts";
import { fc } from "./seeded.ts";
import { statedModel } from "./stated-model.ts";

type Path = readonly (string | number)[];

/** What a job may leave unsaid: keys that the model's types make optional, and lists that may be empty. */
const UNSAID = new Set(
  `date repeats intake exhaust sets chambers deck cut layout bore seat width outside throat pinch portVolume portLength stem
  leakage air boreFixture intakeEntry exhaustPipe diameter length accuracy repeatability remount resolution checkPlate before after
  name engine cylinders stroke rodLength gasket piston dish belowDeck rpm profile duration at springs installedHeight coilBind
  retainerToSeal openAt powerPerFlow hand compared samples heads runs valves flow reason`.split(/\s+/),
);

/** Every place in a model that may be left unsaid. */
function placesIn(value: unknown, path: Path = []): Path[] {
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => {
    const own = [...path, Array.isArray(value) ? Number(key) : key];
    return [...(mayGo(value, key) ? [own] : []), ...placesIn(inner, own)];
  });
}
function mayGo(within: object, key: string): boolean {
  if (Array.isArray(within) || !UNSAID.has(key)) return false;
  // A bench may have no name, a reading no flow; what else is called so is always there.
  return !(key === "name" && !("meter" in within)) && !(key === "flow" && !("kind" in within));
}

/** The same model without what stands at these places: a list is emptied, a key is gone, a reading's flow is missing. */
function without(value: unknown, places: readonly Path[]): unknown {
  if (typeof value !== "object" || value === null) return value;
  const below = (key: string | number) =>
    places.filter((path) => path.length > 1 && path[0] === key).map((path) => path.slice(1));
  if (Array.isArray(value)) return value.map((inner, k) => without(inner, below(k)));
  const gone = new Set(places.filter((path) => path.length === 1).map(([key]) => key));
  const kept = Object.entries(value).flatMap(([key, inner]) => {
    if (!gone.has(key)) return [[key, without(inner, below(key))]];
    return Array.isArray(inner) && key !== "profile" ? [[key, []]] : [];
  });
  return { ...Object.fromEntries(kept), ...(gone.has("flow") ? { kind: "missing" } : {}) };
}

/** Numbers that are none, and keys without a value: what is not known has no key. */
function flawsIn(value: unknown, path = ""): string[] {
  if (value === undefined || (typeof value === "number" && !Number.isFinite(value))) return [`${path}: ${value}`];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => flawsIn(inner, `${path}/${key}`));
}

/** What a list of many jobs shows of them. */
function listed({ reference, delivered, comparisons, sample }: BriefFigures) {
  const side = (one: BriefSide | undefined) =>
    one && {
      ...picked(one, ["valves", "ports", "valve_diameter_m", "throat_m", "pinch_area_m2", "peak", "compared"]),
      readings: one.readings.map((reading) => picked(reading, ["lift_m", "flow_m3_s", "doubtful"])),
    };
  const pairs = (comparisons as readonly Partial<Comparison>[]).map(({ changes, crossovers_m, ...overall }) => overall);
  return { reference, sample, comparisons: pairs, intake: side(delivered.intake), exhaust: side(delivered.exhaust) };
}
const picked = (value: object, keys: readonly string[]) =>
  Object.fromEntries(Object.entries(value).filter(([key]) => keys.includes(key)));

/** What holds of any job's figures, however little it states. */
function hold(model: Model): void {
  const figures = computeFigures(model);
  expect(flawsIn(figures)).toEqual([]);
  const { errors, warnings } = checkFigures(model, figures);
  for (const { severity } of warnings) expect(severity).toBe("warning");
  for (const { message, hint } of [...errors, ...warnings]) expect(`${message} ${hint}`).not.toMatch(/undefined|NaN/);
  // A list of many jobs takes a shorter way to the same figures.
  expect(listed(briefFigures(model))).toStrictEqual(listed(briefOf(model, figures)));
  expect(impossibleFigures(model, figures.reference.ideal_flow_per_area_m_s)).toStrictEqual(errors);
}

/** Which part of a job a place belongs to: its engine, a port, a bench. */
const partOf = (path: Path) =>
  path
    .slice(0, 4)
    .filter((key) => typeof key === "string")
    .join(" ");

describe("whatever a job leaves unsaid", () => {
  const model = statedModel();
  const placesOf = ({ units, reference, ...rest }: Model) => placesIn(rest);
  test("all of it may be said", () => hold(model));

  const alone = { ...model, stages: model.stages.slice(0, 1), compared: [], samples: [] };
  const byName = new Map(
    placesOf(alone).map((path) => [path.filter((key) => typeof key === "string").join(" "), path]),
  );
  const names = new Set([...byName.values()].map(partOf));
  test.each([...names])("anything alone may be missing of %s", (part) => {
    for (const place of byName.values()) if (partOf(place) === part) hold(without(alone, [place]) as Model);
  });
  test("and many things together", () =>
    fc.assert(
      fc.property(fc.subarray(placesOf(model), { minLength: 20, maxLength: 100 }), (some) =>
        hold(without(model, some) as Model),
      ),
      { numRuns: 20 },
    ));
});
