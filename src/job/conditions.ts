import { fromSi } from "../units/convert.ts";
import type { JobBench } from "./schema/job.ts";
import type { DeclaredUnits } from "./schema/quantities.ts";
import { unlessNone } from "./unless-none.ts";

/** What makes readings unlike each other, as text to compare and to name sets by. */
export type Conditions = {
  readonly bench: string;
  readonly pressure: string;
  readonly fixture: string;
  readonly entry: string;
  readonly pipe: string;
  readonly intake: string;
  readonly exhaust: string;
};

export const CONDITION_KEYS = [
  "bench",
  "pressure",
  "fixture",
  "entry",
  "pipe",
  "intake",
  "exhaust",
] as const satisfies readonly (keyof Conditions)[];

/**
 * The conditions under which a run was taken, quantities in the units given. An empty text is "not stated" or "none":
 * nothing stands in the way.
 */
export function conditionsOf(bench: JobBench, { pressure = "inH2O", length = "mm" }: DeclaredUnits = {}): Conditions {
  const shown = (value: number | undefined, kind: "pressure" | "length", unit: string) =>
    value === undefined ? "" : `${rounded(fromSi(value, kind, unit))} ${unit}`;
  const { exhaust_pipe: pipe } = bench;
  return {
    bench: bench.name ?? "",
    pressure: shown(bench.test_pressure, "pressure", pressure),
    fixture: shown(bench.bore_fixture, "length", length),
    entry: bench.intake_entry ?? "",
    pipe:
      pipe === undefined || pipe === "none"
        ? ""
        : `pipe ${shown(pipe.diameter, "length", length)} × ${shown(pipe.length, "length", length)}`,
    intake: unlessNone(bench.attached?.intake)?.trim() ?? "",
    exhaust: unlessNone(bench.attached?.exhaust)?.trim() ?? "",
  };
}

const rounded = (value: number) => String(Number(value.toFixed(3)));

/** Whether two runs were taken under the same conditions. */
export const alike = (a: Conditions, b: Conditions): boolean => CONDITION_KEYS.every((key) => a[key] === b[key]);
