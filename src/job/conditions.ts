import { fromSi } from "../units/convert.ts";
import type { JobBench } from "./schema/job.ts";
import type { DeclaredUnits } from "./schema/quantities.ts";

/** The conditions that make readings incomparable, as texts to compare and to name sets by. */
export type Conditions = {
  readonly bench: string;
  readonly pressure: string;
  readonly fixture: string;
  readonly entry: string;
  readonly pipe: string;
  readonly intake: string;
  readonly exhaust: string;
};

/** The name of what is bolted on or fitted; undefined for the word `none`. */
export const omitNone = (what: string | undefined): string | undefined =>
  what?.trim().toLowerCase() === "none" ? undefined : what;

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
 * The conditions under which a run was taken, quantities in the units given. An empty text means "not stated" or "none".
 */
export function conditionsOf(bench: JobBench, { pressure = "inH2O", length = "mm" }: DeclaredUnits = {}): Conditions {
  const format = (value: number | undefined, kind: "pressure" | "length", unit: string) =>
    value === undefined ? "" : `${round(fromSi(value, kind, unit))} ${unit}`;
  const { exhaust_pipe: pipe } = bench;
  return {
    bench: bench.name ?? "",
    pressure: format(bench.test_pressure, "pressure", pressure),
    fixture: format(bench.bore_fixture, "length", length),
    entry: bench.intake_entry ?? "",
    pipe:
      pipe === undefined || pipe === "none"
        ? ""
        : `pipe ${format(pipe.diameter, "length", length)} × ${format(pipe.length, "length", length)}`,
    intake: omitNone(bench.attached?.intake)?.trim() ?? "",
    exhaust: omitNone(bench.attached?.exhaust)?.trim() ?? "",
  };
}

const round = (value: number) => String(Number(value.toFixed(3)));

/** Whether two runs were taken under the same conditions. */
export const haveEqualConditions = (a: Conditions, b: Conditions): boolean =>
  CONDITION_KEYS.every((key) => a[key] === b[key]);
