import { describe, expect, test } from "vitest";
import { checkEachRule } from "../../src/figures/checks/check-figures.ts";
import { computeFigures } from "../../src/figures/compute-figures.ts";
import type { Model, Reading, Side, Stage } from "../../src/model/model.ts";
import { cubicMetresPerSecond, metres } from "../../src/units/quantity.ts";
import { cfm } from "./model-fixture.ts";
import { fc } from "./seeded.ts";
import { statedModel } from "./stated-model.ts";

type Path = readonly (string | number)[];

/** What a job may leave unsaid: keys that the model's types make optional, and lists that may be empty. */
const UNSAID = new Set(
  `date repeats intake exhaust sets chambers deck cut layout bore seat width outside throat pinch portVolume portLength stem
  leakage air boreFixture intakeEntry exhaustPipe diameter length accuracy repeatability remount resolution checkPlate before after
  name engine cylinders stroke rodLength gasket piston dish belowDeck rpm profile duration at springs installedHeight coilBind
  retainerToSeal openAt valveTrain height shim tip drop guide runout seal vacuum rate seatForce powerPerFlow hand compared samples heads runs valves flow reason`.split(
    /\s+/,
  ),
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

/** What holds of any job's figures, however little it states. */
function hold(model: Model): void {
  const figures = computeFigures(model);
  expect(flawsIn(figures)).toEqual([]);
  const { errors, warnings } = checkEachRule(model, figures);
  for (const { severity } of warnings) expect(severity).toBe("warning");
  for (const { message, hint } of [...errors, ...warnings]) expect(`${message} ${hint}`).not.toMatch(/undefined|NaN/);
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
  test("the stages are one, or the last was not flowed, or measures another again", () => {
    const [first, again, last] = model.stages;
    hold({ ...model, stages: [first!] });
    hold({ ...model, stages: [first!, { ...last!, name: "B" }, { ...last!, name: "C", sets: [] }] });
    hold({ ...model, stages: [first!, { ...last!, name: "B" }, { ...last!, name: "C" }] });
    hold({ ...model, stages: [first!, last!, again!], compared: [] });
    hold({ ...model, stages: [], compared: [] });
  });
  test("what no valve can do is refused, once a side", () => {
    const changed = (of: (reading: Reading, side: Side) => Partial<Reading>): Model => {
      const runs = (stage: Stage) =>
        stage.sets.map((set) => ({
          ...set,
          runs: set.runs.map((run) => ({
            ...run,
            readings: {
              intake: run.readings.intake.map((one) => ({ ...one, ...of(one, "intake") })),
              exhaust: run.readings.exhaust.map((one) => ({ ...one, ...of(one, "exhaust") })),
            },
          })),
        }));
      return { ...model, stages: model.stages.map((stage) => ({ ...stage, sets: runs(stage) })) };
    };
    const refused = (job: Model) => {
      hold(job);
      const figures = computeFigures(job);
      return [
        ...new Set(
          checkEachRule(job, figures).errors.map(({ code, message }) => `${code} ${message.match(/intake|exhaust/)}`),
        ),
      ];
    };
    const OVER = "figures/curtain-over-ideal";
    const times = (by: number, which: Side) =>
      changed(({ flow }, side) =>
        flow === undefined || side !== which ? {} : { flow: cubicMetresPerSecond(flow * by) },
      );
    expect(refused(times(2.5, "intake"))).toEqual([`${OVER} intake`]);
    expect(refused(times(2.5, "exhaust"))).toEqual([`${OVER} exhaust`]);
    // A single slip among readings that are far below: they are not looked at, it is.
    const [first] = model.stages[0]!.sets[0]!.runs[0]!.readings.intake;
    const slip = ({ lift, flow }: Reading) => flow! * (Math.abs(lift - first!.lift) < 1e-6 ? 5 : 0.1);
    const onlyOne = (job: Model): Model => ({ ...job, stages: job.stages.slice(0, 1) });
    const slipped = changed((reading, side) =>
      reading.flow === undefined || side === "exhaust" ? {} : { flow: cubicMetresPerSecond(slip(reading)) },
    );
    expect(refused(onlyOne(slipped))).toEqual([`${OVER} intake`]);
    // Nothing is said of doubtful readings, nor of a valve that is shut.
    const doubtful = times(2.5, "intake");
    expect(refused(changed(() => ({})))).toEqual([]);
    for (const more of [{ kind: "doubtful" }, { lift: metres(0) }] as const) {
      const stages = doubtful.stages.map((stage) => ({
        ...stage,
        sets: stage.sets.map((set) => ({
          ...set,
          runs: set.runs.map((run) => ({
            ...run,
            readings: { ...run.readings, intake: run.readings.intake.map((one) => ({ ...one, ...more })) },
          })),
        })),
      }));
      expect(refused({ ...doubtful, stages })).toEqual([]);
    }
    expect(refused(changed(() => ({ flow: cfm(0.1) })))).toEqual([
      "figures/below-leakage intake",
      "figures/below-leakage exhaust",
    ]);
  });
  test("what is said has its figures: each that its inputs allow", () => {
    const { stages, comparisons, sample } = computeFigures(model);
    const keys = (value: object | undefined) =>
      Object.keys(value ?? {})
        .sort()
        .join(" ");
    const words = (text: string) => text.split(/\s+/).sort().join(" ");
    const { intake, exhaust } = stages[2]!;
    const side = `valves ports valve_diameter_m throat_m throat_ratio seat_width_m seat_angle_rad seat_outside_m pinch_area_m2
      pinch_to_valve_area mean_port_area_m2 port_volume_m3 not_remeasured flowed readings typed left_out peak port_to_port curve compared mean_flow
      bands cam_mean_flow_m3_s opening flow_per_valve_area_m_s pinch_share_of_ideal after_peak holds flat_spots sources cylinders
      cylinder_spread conversion_pressure_ratio`;
    expect([keys(intake), keys(exhaust)]).toEqual(Array(2).fill(words(side)));
    expect(keys(stages[2])).toBe(
      words(`name date set intake exhaust sets exhaust_to_intake chambers compression_ratio compression_ratio_low
        compression_ratio_high springs valve_train engine`),
    );
    expect(keys(stages[1])).toContain("repeats");
    const reading = `lift_m flow_m3_s lift_to_diameter repeats mounts of_cylinders uncertainty_m3_s budget curtain_area_m2 curtain_coefficient minimum_area_m2
      minimum_area_stage discharge_coefficient valve_coefficient pinch_velocity_m_s`;
    expect(keys(exhaust!.readings[0])).toBe(words(reading));
    expect(keys(intake!.readings[1])).toBe(words(`${reading} noisy converted_from_Pa`));
    expect(keys(intake!.peak)).toBe(words("lift_m flow_m3_s uncertainty_m3_s budget"));
    expect(keys(intake!.mean_flow)).toBe(words("cylinders from_lift_m to_lift_m flow_m3_s uncertainty_m3_s budget"));
    expect(keys(intake!.compared.find(({ interpolated }) => interpolated))).toBe(
      words("at lift_m flow_m3_s uncertainty_m3_s budget interpolated"),
    );
    expect(keys(stages[2]!.exhaust_to_intake[0])).toBe("budget lift_m ratio uncertainty");
    expect(keys(stages[2]!.engine)).toBe(
      words(
        `pinch_limit_rpm pinch_band_rpm pinch_velocity inlet_mach_index z_limit_rpm mean_inlet_mach mean_inlet_mach_rpm mean_piston_speed supported_power_W`,
      ),
    );
    // Taylor: Z of 0.6 is where volumetric efficiency begins to fall.
    const { inlet_mach_index, z_limit_rpm } = stages[2]!.engine!;
    expect((inlet_mach_index[0]!.z * z_limit_rpm!) / inlet_mach_index[0]!.rpm).toBeCloseTo(0.6, 9);
    expect(keys(comparisons[0])).toBe(
      words(`from to side like_for_like differences from_lift_m to_lift_m mean_from_m3_s mean_change_ratio mean_change_uncertainty_ratio
        mean_change_budget mean_change_verdict floor_ratio cylinders peak_change changes crossovers_m`),
    );
    expect(keys(sample)).toBe("exhaust intake n");
  });

  const alone = { ...model, stages: model.stages.slice(0, 1), compared: [], samples: [] };
  const byName = new Map(
    placesOf(alone).map((path) => [path.filter((key) => typeof key === "string").join(" "), path]),
  );
  const names = new Set([...byName.values()].map(partOf));
  test.each([...names])("without any one part of %s", (part) => {
    for (const place of byName.values()) if (partOf(place) === part) hold(without(alone, [place]) as Model);
  });
  test("and without many at once", () =>
    fc.assert(
      fc.property(fc.subarray(placesOf(model), { minLength: 30, maxLength: 150 }), (some) =>
        hold(without(model, some) as Model),
      ),
      { numRuns: 10 },
    ));
});
