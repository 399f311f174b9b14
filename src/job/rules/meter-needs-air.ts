import { error } from "../../diagnostics/build.ts";
import { mergeBench } from "../merge-bench.ts";
import type { JobBench } from "../schema/job.ts";
import { benchPlaces } from "./bench-places.ts";
import type { JobRule } from "./rule.ts";

const needsAir = (bench: JobBench | undefined) => bench?.meter === "volumetric" || bench?.meter === "mass";

/** A volumetric or mass meter reads with the air's density, so that the air must be known wherever one was used. */
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
