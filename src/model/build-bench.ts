import { omitNone } from "../job/conditions.ts";
import { DEFAULTS } from "../job/defaults.ts";
import type { JobBench } from "../job/schema/job.ts";
import type { TypedQuantity } from "../job/schema/quantities.ts";
import { cubicMetresPerSecond, type Pascals, ratio } from "../units/quantity.ts";
import type { Bench } from "./model.ts";

/**
 * Builds a bench with defaults. `file` is the file in which it stands, `typical` the test pressure when only the table's
 * columns state one.
 */
export function buildBench(bench: JobBench, file: string, typical: Pascals = DEFAULTS.report.testPressure): Bench {
  const testPressure = bench.test_pressure ?? typical;
  const { leakage, air, exhaust_pipe: pipe, repeatability, check_plate: plate, attached } = bench;
  return {
    name: bench.name,
    file,
    intakeEntry: bench.intake_entry,
    checked: bench.checked,
    against: bench.against,
    testPressure,
    reads: bench.reads ?? DEFAULTS.bench.reads,
    meter: bench.meter ?? DEFAULTS.bench.meter,
    ...(bench.meter === undefined && { meterIsDefault: true }),
    leakage: leakage && {
      intake: leakage.intake?.value,
      exhaust: leakage.exhaust?.value,
      resolution: {
        intake: resolutionOf(leakage.intake),
        exhaust: resolutionOf(leakage.exhaust),
      },
      how: leakage.how,
      testPressure: leakage.test_pressure ?? testPressure,
    },
    air:
      air?.temperature === undefined || air.pressure === undefined
        ? undefined
        : {
            temperature: air.temperature,
            pressure: air.pressure,
            relativeHumidity: air.humidity ?? DEFAULTS.referenceAir.relativeHumidity,
            ...(air.humidity === undefined && { humidityIsDefault: true }),
          },
    boreFixture: bench.bore_fixture,
    accuracy: bench.accuracy,
    remount: bench.remount,
    resolution: bench.resolution,
    exhaustPipe: pipe === undefined || pipe === "none" ? undefined : { diameter: pipe.diameter, length: pipe.length },
    ...(pipe === "none" && { noExhaustPipe: true }),
    attached: { intake: omitNone(attached?.intake), exhaust: omitNone(attached?.exhaust) },
    repeatability: buildRepeatability(repeatability),
    liftSetting: bench.lift_setting ?? DEFAULTS.bench.liftSetting,
    liftSettingIsDefault: bench.lift_setting === undefined,
    checkPlate: plate && { nominal: plate.nominal, before: plate.before, after: plate.after },
  };
}

const resolutionOf = (typed: TypedQuantity<"flow"> | undefined) => typed && cubicMetresPerSecond(typed.resolution);

function buildRepeatability(stated: JobBench["repeatability"]): Bench["repeatability"] {
  if (stated === undefined) return undefined;
  return typeof stated === "number"
    ? { kind: "expanded", value: ratio(stated) }
    : { kind: "range", spread: stated.spread, of: stated.of };
}
