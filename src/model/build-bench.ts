import { DEFAULTS } from "../job/defaults.ts";
import type { JobBench } from "../job/schema/job.ts";
import { type Pascals, ratio } from "../units/quantity.ts";
import type { Bench } from "./model.ts";
import { present } from "./present.ts";

/** A bench with defaults filled in. `typical` stands for a test pressure that only the table's own columns tell. */
export function buildBench(bench: JobBench, typical: Pascals = DEFAULTS.report.testPressure): Bench {
  const testPressure = bench.test_pressure ?? typical;
  const { leakage, air, exhaust_pipe: pipe, repeatability, check_plate: plate, attached } = bench;
  return {
    ...present({ name: bench.name, intakeEntry: bench.intake_entry, checked: bench.checked, against: bench.against }),
    testPressure,
    reads: bench.reads ?? DEFAULTS.bench.reads,
    meter: bench.meter ?? DEFAULTS.bench.meter,
    ...(leakage && {
      leakage: {
        ...present({ intake: leakage.intake, exhaust: leakage.exhaust, how: leakage.how }),
        testPressure: leakage.test_pressure ?? testPressure,
      },
    }),
    ...(air?.temperature !== undefined &&
      air.pressure !== undefined && {
        air: {
          temperature: air.temperature,
          pressure: air.pressure,
          relativeHumidity: air.humidity ?? DEFAULTS.referenceAir.relativeHumidity,
        },
      }),
    ...present({
      boreFixture: bench.bore_fixture,
      accuracy: bench.accuracy,
      remount: bench.remount,
      resolution: bench.resolution,
    }),
    ...(pipe !== undefined &&
      pipe !== "none" && { exhaustPipe: present({ diameter: pipe.diameter, length: pipe.length }) }),
    attached: present({ intake: unlessNone(attached?.intake), exhaust: unlessNone(attached?.exhaust) }),
    ...(repeatability !== undefined && {
      repeatability:
        typeof repeatability === "number"
          ? { kind: "expanded" as const, value: ratio(repeatability) }
          : { kind: "range" as const, spread: repeatability.spread, of: repeatability.of },
    }),
    liftSetting: bench.lift_setting ?? DEFAULTS.bench.liftSetting,
    liftSettingIsDefault: bench.lift_setting === undefined,
    ...(plate && { checkPlate: { nominal: plate.nominal, ...present({ before: plate.before, after: plate.after }) } }),
  };
}

const unlessNone = (what: string | undefined) => (what?.trim().toLowerCase() === "none" ? undefined : what);
