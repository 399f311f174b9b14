import { isMap } from "../util/is-map.ts";
import type { JobBench } from "./schema/job.ts";

type Facts = { readonly [key: string]: unknown };

/** Merges benches from far to near: maps merge key by key, lists and single values replace. */
export function mergeBench(...benches: readonly (JobBench | undefined)[]): JobBench {
  const [far = {}, ...nearer] = benches.filter((bench) => bench !== undefined);
  return nearer.reduce<JobBench>(mergeMaps, far);
}

/** Keys replaced as a whole because they hold one fact in two forms: a spread is not merged into a plain ±. */
const WHOLE: readonly string[] = ["repeatability", "check_plate"];

function mergeMaps(far: Facts, near: Facts): Facts {
  const merged: Record<string, unknown> = {};
  for (const key in far) {
    const before = far[key];
    const value = Object.hasOwn(near, key) ? near[key] : undefined;
    if (value === undefined) merged[key] = before;
    else merged[key] = isMap(value) && isMap(before) && !WHOLE.includes(key) ? mergeMaps(before, value) : value;
  }
  for (const key in near) if (near[key] !== undefined && !Object.hasOwn(far, key)) merged[key] = near[key];
  return merged;
}
