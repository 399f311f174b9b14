import { type Engine, type JobText, SIDES } from "../../model/model.ts";
import type { StageFigures } from "../figures.ts";

/**
 * Spring clearances at the largest lift that is known: what the springs are set up for, or what a cam gives. Where the
 * sides' springs differ, each at its own side's lift, and the smaller of both.
 *
 *     to coil bind = installed height − lift − coil-bind height,  to the seal = retainer-to-seal gap − lift
 *
 * @param text     the springs as set up, alike or by side [m]
 * @param engine   the engine with its cams
 * @returns        the clearances [m], negative on interference; undefined without springs or a lift
 * @source         elementary geometry
 * @example        springFigures({ springs: { installedHeight: 0.040, coilBind: 0.026 } }, { cams: { intake: { netLift: 0.011 } } }) // { coil_bind_clearance_m: 0.003, largest_lift_m: 0.011 }
 */
export function springFigures(
  text: Pick<JobText, "springs" | "springsBySide">,
  engine: Engine | undefined,
): StageFigures["springs"] {
  const { springs, springsBySide } = text;
  if (springs === undefined) return undefined;
  const { intake, exhaust } = engine?.cams ?? {};
  const each = springsBySide
    ? SIDES.map((side) => ({ own: springsBySide[side], cams: [engine?.cams[side]?.netLift] }))
    : [{ own: springs, cams: [intake?.netLift, exhaust?.netLift] }];
  const known = each.flatMap(({ own, cams }) => {
    const lifts = [own.setUpFor, ...cams].flatMap((one) => one ?? []);
    return lifts.length === 0 ? [] : [{ ...own, lift: Math.max(...lifts) }];
  });
  if (known.length === 0) return undefined;
  const binds = known.flatMap(({ installedHeight, coilBind, lift }) =>
    installedHeight === undefined || coilBind === undefined ? [] : [installedHeight - lift - coilBind],
  );
  const seals = known.flatMap(({ retainerToSeal, lift }) =>
    retainerToSeal === undefined ? [] : [retainerToSeal - lift],
  );
  return {
    ...(binds.length === 0 ? {} : { coil_bind_clearance_m: Math.min(...binds) }),
    ...(seals.length === 0 ? {} : { retainer_clearance_m: Math.min(...seals) }),
    largest_lift_m: Math.max(...known.map(({ lift }) => lift)),
  };
}
