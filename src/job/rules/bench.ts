import { error } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Path, SourceDocument } from "../../parse/yaml/source-document.ts";
import { conditionsOf, haveEqualConditions } from "../conditions.ts";
import { mergeBench } from "../merge-bench.ts";
import { runsOf } from "../readings/run-tables.ts";
import type { Job, JobBench } from "../schema/job.ts";
import type { JobRule, ShopRule } from "./rule.ts";

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

/** Limits of the air at a bench: a barometer's usual range [Pa], relative humidity up to saturation. */
function checkAir(bench: JobBench | undefined, path: Path, located: SourceDocument): Diagnostic[] {
  const { pressure, humidity } = bench?.air ?? {};
  const at = (key: string) => located.span([...path, "air", key]);
  return [
    ...(pressure !== undefined && (pressure < LOWEST || pressure > HIGHEST)
      ? [
          error("job/air-pressure", "the air pressure is outside 50 to 110 kPa", at("pressure"), {
            hint: "write what the barometer shows with its unit, such as 29.80 inHg",
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
