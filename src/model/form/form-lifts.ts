import { fromSi, toSi } from "../../units/convert.ts";
import { type Metres, metres } from "../../units/quantity.ts";
import { type Model, SIDES, type Stage } from "../model.ts";
import type { FormLifts } from "./form.ts";

/** Lift step in each unit of length (common practice). */
const STEP: Readonly<Record<string, number>> = { in: 0.05, thou: 50, mm: 1, cm: 0.1 };
/** Lift ÷ diameter above which the curtain no longer limits the flow (common practice: 0.25 to 0.30). */
const HIGHEST = 0.3;
/** Number of steps when neither cam nor valve is known. */
const STEPS = 12;

/** Lifts of the earlier readings, else even steps up to the lift of the cam or the limit of the valve. */
export function formLifts(model: Model, stage: Stage | undefined): FormLifts {
  const flowed = model.stages.filter(({ sets }) => sets.length > 0);
  const earlier = flowed.includes(stage as Stage) ? stage : flowed.at(-1);
  if (earlier) return { at: measuredLifts(earlier), from: { kind: "stage", name: earlier.name } };
  const cams = SIDES.flatMap((side) => model.engine?.cams[side]?.netLift ?? []);
  const valves = (stage ?? model.stages.at(-1))?.ports ?? {};
  const heads = SIDES.flatMap((side) => valves[side]?.valves.map(({ head }) => head * HIGHEST) ?? []);
  const kind = cams.length > 0 ? "cam" : heads.length > 0 ? "valve" : "neither";
  return { at: evenLifts(model.units.length, Math.max(...(kind === "cam" ? cams : heads))), from: { kind } };
}

/** Even steps in a unit, the last at or above `highest`; 12 steps when it is not finite. */
function evenLifts(unit: string, highest: number): readonly Metres[] {
  const step = STEP[unit] ?? fromSi(0.001, "length", unit);
  const wanted = Number.isFinite(highest) ? Math.ceil(fromSi(highest, "length", unit) / step - 1e-6) : STEPS;
  return Array.from({ length: wanted }, (_, i) => metres(toSi((i + 1) * step, "length", unit)));
}

function measuredLifts({ sets }: Stage): readonly Metres[] {
  const leading = sets[0]?.runs ?? [];
  const all = leading.flatMap(({ readings }) => SIDES.flatMap((side) => readings[side].map(({ lift }) => lift)));
  // The same lift typed in two units may differ by rounding.
  return all.toSorted((a, b) => a - b).filter((lift, i, sorted) => i === 0 || lift - sorted[i - 1]! > 1e-7);
}
