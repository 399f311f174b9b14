import { error, warning } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { type Path, type SourceDocument, valueAt, type YamlValue } from "../../parse/yaml/source-document.ts";
import { appendUnit } from "../../units/append-unit.ts";
import { conditionsOf, haveEqualConditions } from "../conditions.ts";
import { mergeBench } from "../merge-bench.ts";
import { runsOf } from "../readings/run-tables.ts";
import type { Job, JobBench } from "../schema/job.ts";
import type { JobRule, ShopRule } from "./rule.ts";
import { meantSize } from "./typed.ts";

/** Every `bench` of a job with its place. */
function benchPlaces(job: Job): readonly BenchPlace[] {
  const places: BenchPlace[] = [];
  const add = (bench: JobBench | undefined, ...path: Path) => {
    if (bench !== undefined) places.push({ bench, path });
  };
  add(job.bench, "bench");
  job.stages?.forEach((stage, index) => {
    add(stage.bench, "stages", index, "bench");
    stage.runs?.forEach((run, at) => {
      add(run.bench, "stages", index, "runs", at, "bench");
    });
  });
  return places;
}

type BenchPlace = { readonly bench: JobBench; readonly path: Path };

const LOWEST = 50_000;
const HIGHEST = 110_000;

/** What a barometer shows, by unit. */
const BAROMETERS = { inHg: [25, 32], mmHg: [600, 800], mbar: [900, 1100], kPa: [90, 110] } as const;

/** The typed number with the unit in which a barometer shows it. */
function barometerHint(typed: YamlValue | undefined): string {
  const number = typeof typed === "string" ? (/^[\d.]+/.exec(typed.trim())?.[0] ?? "") : "";
  const unit = Object.entries(BAROMETERS).find(
    ([, [low, high]]) => Number(number) >= low && Number(number) <= high,
  )?.[0];
  return unit ? `write ${number} ${unit}` : "write what the barometer shows with its unit, such as 29.80 inHg";
}

/** Limits of the air at a bench: a barometer's usual range [Pa], relative humidity up to saturation. */
function checkAir(bench: JobBench | undefined, path: Path, located: SourceDocument): Diagnostic[] {
  const { pressure, humidity } = bench?.air ?? {};
  const at = (key: string) => located.span([...path, "air", key]);
  return [
    ...(pressure !== undefined && (pressure < LOWEST || pressure > HIGHEST)
      ? [
          error("job/air-pressure", "the air pressure is outside 50 to 110 kPa", at("pressure"), {
            hint: barometerHint(valueAt(located.value, [...path, "air", "pressure"])),
          }),
        ]
      : []),
    ...(humidity !== undefined && humidity > 1
      ? [error("job/humidity", "the relative humidity is over 100 %", at("humidity"), { hint: "write 45 %" })]
      : []),
  ];
}

export const air: JobRule = ({ job, located }) => {
  const faults: Diagnostic[] = [];
  for (const { bench, path } of benchPlaces(job)) faults.push(...checkAir(bench, path, located));
  return faults;
};
export const airOfShop: ShopRule = ({ shop, located }) => checkAir(shop.bench, ["bench"], located);

/** Test pressures at which heads are flowed, 1–100 inH2O: common practice 3–60. */
const TEST_PRESSURE = [249.08891, 24_908.891] as const;

/** A test pressure that no flow bench holds: typed in another unit, or without its point. */
export const testPressureSize: JobRule = ({ job, located, units }) =>
  benchPlaces(job).flatMap(({ bench, path }) => {
    const { test_pressure: pressure } = bench;
    const [low, high] = TEST_PRESSURE;
    if (pressure === undefined || (pressure >= low && pressure <= high)) return [];
    const at = [...path, "test_pressure"];
    const typed = String(valueAt(located.value, at) ?? "").trim();
    const digits = /^[\d.]+/.exec(typed)?.[0] ?? "";
    const inWater = Number(digits) * low;
    const meant = digits !== typed && inWater >= 3 * low && inWater <= high ? `${digits} inH2O` : undefined;
    const hint = meant ? `did you mean ${meant}?` : meantSize(at, "pressure", [3 * low, 60 * low], { located, units });
    return [
      warning(
        "job/test-pressure-size",
        `a test pressure of ${appendUnit(typed, "pressure", units.pressure)} is one that no flow bench holds`,
        located.span(at),
        {
          hint: hint ?? "check it and its unit: 28 inH2O is 7 kPa",
        },
      ),
    ];
  });

const needsAir = (bench: JobBench | undefined) => bench?.meter === "volumetric" || bench?.meter === "mass";

/** The reading of a volumetric or mass meter depends on the air's density: the air must be stated wherever one was used. */
export const meterNeedsAir: JobRule = ({ job, located, shopBench }) => {
  if (![shopBench, ...benchPlaces(job).map(({ bench }) => bench)].some(needsAir)) return [];
  const runs = (job.stages ?? []).flatMap((stage, index) => {
    const base = mergeBench(shopBench, job.bench, stage.bench);
    if (stage.flow !== undefined) return [{ bench: base, path: ["stages", index, "flow"] }];
    return (stage.runs ?? []).map((run, at) => ({
      bench: mergeBench(base, run.bench),
      path: ["stages", index, "runs", at],
    }));
  });
  const first = runs.find(
    ({ bench }) => needsAir(bench) && (bench.air?.temperature === undefined || bench.air.pressure === undefined),
  );
  if (!first) return [];
  const place = job.bench?.meter !== undefined ? located.span(["bench", "meter"]) : located.keySpan(first.path);
  return [
    error("job/meter-needs-air", `a ${first.bench.meter} meter needs the air at the bench`, place, {
      note: "its reading changes with the density of the air",
      hint: "write `air: { temperature: 70 degF, pressure: 29.80 inHg, humidity: 45 % }` under `bench`",
    }),
  ];
};

/** Runs of one named set share their conditions: only then are their readings repeats of each other. */
export const setsAlike: JobRule = ({ job, located, shopBench }) => {
  if (!job.stages?.some((stage) => stage.runs?.some((run) => run.set !== undefined))) return [];
  const runs = runsOf(job, shopBench).flatMap((run) => {
    const name = run.run === undefined ? undefined : job.stages?.[run.stage]?.runs?.[run.run]?.set;
    return name === undefined ? [] : [{ ...run, name: name.toLowerCase() }];
  });
  return runs.flatMap((run, index) => {
    const first = runs.findIndex((other) => other.stage === run.stage && other.name === run.name);
    const before = runs[first];
    if (first === index || !before || haveEqualConditions(conditionsOf(before.bench), conditionsOf(run.bench)))
      return [];
    return [
      error(
        "job/set-unlike",
        "this run was taken under other conditions than the rest of its set",
        located.span([...run.path, "set"]),
        {
          note: "readings of one set are taken as repeats of each other",
          hint: "give it a set of its own",
        },
      ),
    ];
  });
};
