import { DEFAULTS } from "../job/defaults.ts";
import type { JobCam, JobEngine } from "../job/schema/job.ts";
import { cubicMetres, type Metres, metres } from "../units/quantity.ts";
import { omitUndefined } from "../util/omit-undefined.ts";
import type { Cam, Engine } from "./model.ts";

/** Builds the engine: dish or dome and deck height signed, cams referred to the valve. */
export function buildEngine(engine: JobEngine): Engine {
  const { gasket, piston, rpm } = engine;
  const dish = signedValue(piston?.dish, piston?.dome);
  const belowDeck = signedValue(piston?.below_deck, piston?.above_deck);
  return {
    name: engine.name,
    cylinders: engine.cylinders,
    bore: engine.bore,
    stroke: engine.stroke,
    rodLength: engine.rod_length,
    gasket: gasket && buildGasket(gasket),
    piston: piston && {
      dish: dish === undefined ? undefined : cubicMetres(dish),
      belowDeck: belowDeck === undefined ? undefined : metres(belowDeck),
    },
    rpm,
    cams: omitUndefined({
      intake:
        engine.intake_cam &&
        buildCam(engine.intake_cam, engine, engine.intake_cam.intake_centre ?? engine.intake_centre),
      exhaust: engine.exhaust_cam && buildCam(engine.exhaust_cam, engine, undefined),
    }),
  };
}

function buildGasket({ volume, bore, compressed }: NonNullable<JobEngine["gasket"]>): Engine["gasket"] {
  if (bore !== undefined && compressed !== undefined) return { kind: "ring", bore, compressed };
  return volume === undefined ? undefined : { kind: "volume", volume };
}

/** The first value as it is, else the second negated. */
const signedValue = (adds: number | undefined, takes: number | undefined): number | undefined =>
  adds ?? (takes === undefined ? undefined : -takes);

function buildCam(cam: JobCam, engine: JobEngine, centre: JobCam["centre"]): Cam | undefined {
  const rocker = cam.rocker ?? DEFAULTS.rocker;
  const lash = cam.lash ?? DEFAULTS.lash;
  const atValve = (lift: Metres) => metres(lift * rocker - lash);
  const profile = cam.profile?.map(({ angle, lift }) => ({
    angle,
    lift: cam.of === "follower" ? metres(Math.max(0, atValve(lift))) : lift,
  }));
  const top = profile && metres(Math.max(...profile.map((point) => point.lift)));
  const netLift = cam.net_lift ?? (cam.lobe_lift === undefined ? top : atValve(cam.lobe_lift));
  if (netLift === undefined) return undefined;
  const check = cam.duration === undefined ? cam.durations?.[0] : { duration: cam.duration, at: cam.at };
  // Without a statement of where the check lift is measured, the duration cannot be used.
  const known = check !== undefined && (check.at === undefined || check.at === 0 || cam.of !== undefined);
  const at =
    check?.at === undefined ? undefined : cam.of === "follower" ? metres(Math.max(0, atValve(check.at))) : check.at;
  return {
    netLift,
    ...(known && { duration: check.duration, at, of: cam.of }),
    profile,
    lobeSeparation: cam.lobe_separation ?? engine.lobe_separation,
    centre: cam.centre ?? centre,
  };
}
