import { type Engine, type JobText, SIDES } from "../../model/model.ts";
import type { StageFigures } from "../figures.ts";

/**
 * Spring clearances at the largest lift that is known: what the springs are set up for, or what a cam gives. Where the
 * sides' springs differ, the smaller of both.
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
  const each = springsBySide ? SIDES.map((side) => springsBySide[side]) : [springs];
  const { intake, exhaust } = engine?.cams ?? {};
  const lifts = [...each.map((one) => one.setUpFor), intake?.netLift, exhaust?.netLift].flatMap((one) => one ?? []);
  if (lifts.length === 0) return undefined;
  const lift = Math.max(...lifts);
  const binds = each.flatMap(({ installedHeight, coilBind }) =>
    installedHeight === undefined || coilBind === undefined ? [] : [installedHeight - lift - coilBind],
  );
  const seals = each.flatMap(({ retainerToSeal }) => (retainerToSeal === undefined ? [] : [retainerToSeal - lift]));
  return {
    ...(binds.length === 0 ? {} : { coil_bind_clearance_m: Math.min(...binds) }),
    ...(seals.length === 0 ? {} : { retainer_clearance_m: Math.min(...seals) }),
    largest_lift_m: lift,
  };
}
