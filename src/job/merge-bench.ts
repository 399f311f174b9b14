import type { JobBench } from "./schema/job.ts";

type Facts = { readonly [key: string]: unknown };
const isMap = (value: unknown): value is Facts => typeof value === "object" && value !== null && !Array.isArray(value);

/** Benches from far to near: maps merge key by key, lists and single values replace. */
export const mergeBench = (...benches: readonly (JobBench | undefined)[]): JobBench =>
  benches.reduce<Facts>((far, near) => (near ? mergeMaps(far, near) : far), {}) as JobBench;

/** Facts that are one thing said in two ways are replaced whole: a spread is not merged into a plain ±. */
const WHOLE: readonly string[] = ["repeatability", "check_plate"];

function mergeMaps(far: Facts, near: Facts): Facts {
  const merged: Record<string, unknown> = { ...far };
  for (const [key, value] of Object.entries(near)) {
    if (value === undefined) continue;
    const before = merged[key];
    merged[key] = isMap(value) && isMap(before) && !WHOLE.includes(key) ? mergeMaps(before, value) : value;
  }
  return merged;
}
