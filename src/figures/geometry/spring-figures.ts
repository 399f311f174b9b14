import type { Engine, Springs } from "../../model/model.ts";
import type { StageFigures } from "../figures.ts";

/**
 * Spring clearances at the largest lift that is known: what the springs are set up for, or what a cam gives.
 *
 *     to coil bind = installed height − lift − coil-bind height,  to the seal = retainer-to-seal gap − lift
 *
 * @param springs  as set up [m]
 * @param engine   the engine with its cams
 * @returns        the clearances [m], negative on interference; undefined without springs or a lift
 * @source         elementary geometry
 * @example        springFigures({ installedHeight: 0.040, coilBind: 0.026 }, { cams: { intake: { netLift: 0.011 } } }) // { coil_bind_clearance_m: 0.003, largest_lift_m: 0.011 }
 */
export function springFigures(springs: Springs | undefined, engine: Engine | undefined): StageFigures["springs"] {
  if (springs === undefined) return undefined;
  const { intake, exhaust } = engine?.cams ?? {};
  const lifts = [springs.setUpFor, intake?.netLift, exhaust?.netLift].filter((lift) => lift !== undefined);
  if (lifts.length === 0) return undefined;
  const lift = Math.max(...lifts);
  const { installedHeight, coilBind, retainerToSeal } = springs;
  const bind = installedHeight === undefined || coilBind === undefined ? undefined : installedHeight - lift - coilBind;
  return {
    ...(bind === undefined ? {} : { coil_bind_clearance_m: bind }),
    ...(retainerToSeal === undefined ? {} : { retainer_clearance_m: retainerToSeal - lift }),
    largest_lift_m: lift,
  };
}
