import {
  type JobText,
  SIDES,
  type Side,
  type Springs,
  type ValveTrainLimits,
  type ValveTrainRow,
} from "../../model/model.ts";
import { omitUndefined } from "../../util/omit-undefined.ts";
import type { ValveFigures, ValveTrainFigures } from "../figures.ts";
import { exceeds } from "../math/limits.ts";
import { springForce, springRate } from "./spring-force.ts";
import { anotherShim, median, offMedian } from "./unlike-values.ts";

type ValveTrainText = Pick<JobText, "springs" | "springsBySide" | "valveTrainLimits">;

/**
 * What follows from the table of the valve train and the stated springs, valve by valve, and how far each row is alike.
 *
 *     seat force = F + k (H − h);  at the set-up lift F + k (H − h + L);  to coil bind h − L − solid;  to the seal s − L
 *
 * @param rows  one a valve: height h with its shim in place [m], seal gap s [m] and what else was taken
 * @param text  the springs: H [m], F [N], k [N/m], L [m], solid [m], s [m]; the shop's limits
 * @returns     the valves by cylinder, intake before exhaust; undefined without a table
 * @source      Hooke's law; elementary geometry
 * @example     valveTrainFigures([], { valveTrainLimits: {} }) // undefined
 */
export function valveTrainFigures(
  rows: readonly ValveTrainRow[] | undefined,
  text: ValveTrainText,
): ValveTrainFigures | undefined {
  if (rows === undefined || rows.length === 0) return undefined;
  const { valveTrainLimits: limits } = text;
  const bySide = SIDES.map((side) => {
    const springs = text.springsBySide?.[side] ?? text.springs;
    const own = rows.filter((row) => row.side === side).toSorted(inOrder);
    return {
      side,
      springs,
      valves: markUnlike(
        own.map((row) => valveFigures(row, springs, limits)),
        limits,
      ),
    };
  });
  const valves = bySide.flatMap((one) => one.valves);
  const springs = Object.fromEntries(
    bySide.flatMap((one) => (one.springs && one.valves.length > 0 ? [[one.side, sideSprings(one.springs)]] : [])),
  );
  return {
    ...(Object.keys(springs).length > 0 ? { springs } : {}),
    spreads: bySide.flatMap((one) => spreadsOf(one.side, one.valves)),
    valves: valves.toSorted((a, b) => a.cylinder - b.cylinder),
  };
}

const inOrder = (a: ValveTrainRow, b: ValveTrainRow) => a.cylinder - b.cylinder || (a.letter < b.letter ? -1 : 1);

function sideSprings(springs: Springs) {
  const found = springRate(springs);
  return omitUndefined({ rate_N_m: found?.rate, rate_from: found?.from, set_up_lift_m: springs.setUpFor });
}

function valveFigures(row: ValveTrainRow, springs: Springs | undefined, limits: ValveTrainLimits): ValveFigures {
  const { side, cylinder, letter, height, vacuum } = row;
  const { installedHeight, seatForce, setUpFor: lift, coilBind, retainerToSeal } = springs ?? {};
  const rate = springs && springRate(springs)?.rate;
  const shorter = installedHeight === undefined || height === undefined ? undefined : installedHeight - height;
  const forceAt = (more: number | undefined) =>
    seatForce === undefined || rate === undefined || shorter === undefined || more === undefined
      ? undefined
      : springForce(seatForce, rate, shorter + more);
  const gap = row.seal ?? retainerToSeal;
  const figures = omitUndefined({
    installed_height_m: height,
    shim_m: row.shim,
    tip_m: row.tip,
    drop_m: row.drop,
    guide_clearance_m: row.guide,
    seat_runout_m: row.runout,
    vacuum_Pa: typeof vacuum === "number" ? vacuum : undefined,
    vacuum: typeof vacuum === "string" ? vacuum : undefined,
    seat_force_N: forceAt(0),
    set_up_force_N: forceAt(lift),
    coil_bind_clearance_m:
      height === undefined || lift === undefined || coilBind === undefined ? undefined : height - lift - coilBind,
    retainer_clearance_m: gap === undefined || lift === undefined ? undefined : gap - lift,
  });
  return {
    valve: `${cylinder}${side === "intake" ? "I" : "E"}${letter}`,
    cylinder,
    side,
    ...(letter === "" ? {} : { letter }),
    ...figures,
    not_alike: [],
    beyond_limit: beyondLimit(figures, limits),
  };
}

type Values = Partial<ValveFigures>;

/** Keys of the values beyond the shop's limits. */
function beyondLimit(values: Values, limits: ValveTrainLimits): readonly (keyof ValveFigures)[] {
  const above = (value: number | undefined, most: number | undefined) =>
    value !== undefined && most !== undefined && exceeds(value * 1000, most * 1000);
  const outside = (value: number | undefined, range: readonly [number, number] | undefined) =>
    range !== undefined && (above(value, range[1]) || above(range[0], value));
  const judged: readonly (readonly [keyof ValveFigures, boolean])[] = [
    ["seat_force_N", outside(values.seat_force_N, limits.seatForce)],
    ["set_up_force_N", outside(values.set_up_force_N, limits.openForce)],
    ["coil_bind_clearance_m", above(limits.coilBind, values.coil_bind_clearance_m)],
    ["retainer_clearance_m", above(limits.retainerToSeal, values.retainer_clearance_m)],
    ["guide_clearance_m", above(values.guide_clearance_m, limits.guide)],
    ["seat_runout_m", above(values.seat_runout_m, limits.runout)],
    ["vacuum", values.vacuum === "lost"],
  ];
  return judged.flatMap(([key, is]) => (is ? [key] : []));
}

/** What is set, which should be alike in a row. */
const SET = ["installed_height_m", "shim_m", "tip_m", "drop_m"] as const;

/** Marks what is not as its neighbours: another shim, or off the median of the row. */
function markUnlike(valves: readonly ValveFigures[], { alike }: ValveTrainLimits): readonly ValveFigures[] {
  const flags = SET.map((key) => {
    const values = valves.map((valve) => valve[key]);
    return key === "shim_m" ? anotherShim(values) : offMedian(values, alike);
  });
  return valves.map((valve, i) => ({ ...valve, not_alike: SET.filter((_, k) => flags[k]![i]) }));
}

/** Lowest, highest and median of what is set, where two valves of a side have it. */
function spreadsOf(side: Side, valves: readonly ValveFigures[]): ValveTrainFigures["spreads"] {
  return SET.flatMap((value) => {
    const known = valves.flatMap((valve) => valve[value] ?? []);
    if (known.length < 2) return [];
    const [low_m, high_m] = [Math.min(...known), Math.max(...known)];
    return [{ side, value, low_m, high_m, median_m: median(known), n: known.length }];
  });
}
