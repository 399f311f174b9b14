import { z } from "zod";
import { key, keys, requiredKey } from "./keys.ts";
import { count, list, plainNumber, text, word } from "./plain.ts";
import { quantity as q } from "./quantities.ts";
import { profileTable } from "./tables.ts";

/** What the head goes on, as stated by the customer. */
export const engineSchema = () =>
  keys({
    name: key(true, text("What it goes on"), "Launch engine"),
    cylinders: key(true, count("How many cylinders the engine has")),
    bore: key(true, q.length.of("Bore", 3.425)),
    stroke: key(true, q.length.of("Stroke", 2.953)),
    rod_length: key(true, q.length.of("Connecting rod, centre to centre", 5.39)),
    gasket: key(true, gasketSchema(), { bore: 3.5, compressed: 0.041 }),
    piston: key(true, pistonSchema(), { dish: "5 cc", below_deck: 0.02 }),
    rpm: key(true, speedsSchema(), { from: 2500, to: 7000 }),
    intake_cam: key(true, camSchema().meta({ description: "The intake cam" }), CAM),
    exhaust_cam: key(true, camSchema().meta({ description: "The exhaust cam" }), CAM),
    lobe_separation: key(true, q.angle.of("Between the lobes' centres, in cam degrees", "108 deg")),
    intake_centre: key(true, q.angle.of("Intake lobe's centre, crank degrees after top dead centre", "104 deg")),
  }).meta({ description: "What it goes on, as stated by the customer" });

const CAM = { net_lift: 0.42, duration: "246 deg", at: 0.05, of: "valve" };
const PROFILE = "degrees  lift\n-120     0\n0        0.288\n120      0\n";

const gasketSchema = () =>
  keys({
    bore: key(true, q.length.of("Bore of the gasket", 3.5)),
    compressed: key(true, q.length.of("Thickness when tightened", 0.041)),
    volume: key(true, q.volume.of("Its volume, instead of bore and thickness", "8.9 cc")),
  }).meta({ description: "Head gasket: bore and compressed thickness, or its volume" });

const pistonSchema = () =>
  keys({
    dish: key(true, q.volume.of("Volume of the dish", "5 cc", "zero or more")),
    dome: key(true, q.volume.of("Volume of the dome", "5 cc", "zero or more")),
    below_deck: key(true, q.length.of("Crown below the deck at top dead centre", 0.02, "zero or more")),
    above_deck: key(true, q.length.of("Crown above the deck at top dead centre", 0.005, "zero or more")),
  }).meta({ description: "dish or dome, below_deck or above_deck: words, no signs" });

const speedsSchema = () =>
  keys({
    from: requiredKey(true, q.rotation.of("Lowest", 2500)),
    to: requiredKey(true, q.rotation.of("Highest", 7000)),
  }).meta({ description: "Engine speeds of interest" });

const camSchema = () =>
  keys({
    net_lift: key(true, q.length.of("Lift at the valve, lash taken off", 0.42)),
    lobe_lift: key(true, q.length.of("Lift at the lobe; with rocker and lash", 0.288)),
    rocker: key(true, plainNumber("Rocker ratio; none said: 1", 1.5)),
    lash: key(true, q.length.of("Valve lash; none said: none", 0.012, "zero or more")),
    duration: key(true, q.angle.of("Crank degrees open at the check lift", "246 deg")),
    at: key(true, q.length.of("The check lift that the duration is stated at", 0.05, "zero or more")),
    of: key(true, word(["valve", "follower"], "Where the check lift is measured")),
    durations: key(true, list("Durations at several check lifts", durationSchema()), [
      { duration: "240 deg", at: 0.05 },
    ]),
    profile: key(true, profileTable(), PROFILE),
    lobe_separation: key(true, q.angle.of("Between the lobes' centres, in cam degrees", "108 deg")),
    intake_centre: key(true, q.angle.of("Intake lobe's centre, crank degrees after top dead centre", "104 deg")),
    centre: key(true, q.angle.of("This lobe's centre, crank degrees from top dead centre", "104 deg")),
    // Accepted here so that a rule can name the two keys to choose from.
    lift: key(
      false,
      z.union([z.string(), z.number()]).meta({ deprecated: true, description: "Say net_lift or lobe_lift" }),
    ),
  });

const durationSchema = () =>
  keys({
    duration: requiredKey(true, q.angle.of("Crank degrees open", "246 deg")),
    at: requiredKey(true, q.length.of("Check lift", 0.05, "zero or more")),
  });
