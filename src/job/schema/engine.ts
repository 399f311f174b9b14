import { z } from "zod";
import { count, plainNumber, text, word } from "./plain.ts";
import type { Declared, Quantities } from "./quantities.ts";
import { profileTable } from "./tables.ts";

/** What the head goes on, as stated by the customer. */
export const engineSchema = (q: Quantities, declared: Declared) =>
  z
    .strictObject({
      name: text("What it goes on").optional(),
      cylinders: count("How many cylinders the engine has").optional(),
      bore: q.length.of("Bore", 3.425).optional(),
      stroke: q.length.of("Stroke", 2.953).optional(),
      rod_length: q.length.of("Connecting rod, centre to centre", 5.39).optional(),
      gasket: z
        .strictObject({
          bore: q.length.of("Bore of the gasket", 3.5).optional(),
          compressed: q.length.of("Thickness when tightened", 0.041).optional(),
          volume: q.volume.of("Its volume, instead of bore and thickness", "8.9 cc").optional(),
        })
        .meta({ description: "Head gasket: bore and compressed thickness, or its volume" })
        .optional(),
      piston: z
        .strictObject({
          dish: q.volume.of("Volume of the dish", "5 cc", "zero or more").optional(),
          dome: q.volume.of("Volume of the dome", "5 cc", "zero or more").optional(),
          below_deck: q.length.of("Crown below the deck at top dead centre", 0.02, "zero or more").optional(),
          above_deck: q.length.of("Crown above the deck at top dead centre", 0.005, "zero or more").optional(),
        })
        .meta({ description: "dish or dome, below_deck or above_deck: words, no signs" })
        .optional(),
      rpm: z
        .strictObject({ from: q.rotation.of("Lowest", 2500), to: q.rotation.of("Highest", 7000) })
        .meta({ description: "Engine speeds of interest" })
        .optional(),
      intake_cam: camSchema(q, declared).meta({ description: "The intake cam" }).optional(),
      exhaust_cam: camSchema(q, declared).meta({ description: "The exhaust cam" }).optional(),
      lobe_separation: q.angle.of("Between the lobes' centres, in cam degrees", "108 deg").optional(),
      intake_centre: q.angle.of("Intake lobe's centre, crank degrees after top dead centre", "104 deg").optional(),
    })
    .meta({ description: "What it goes on, as stated by the customer" });

const camSchema = (q: Quantities, declared: Declared) =>
  z.strictObject({
    net_lift: q.length.of("Lift at the valve, lash taken off", 0.42).optional(),
    lobe_lift: q.length.of("Lift at the lobe; with rocker and lash", 0.288).optional(),
    rocker: plainNumber("Rocker ratio; none said: 1", 1.5).optional(),
    lash: q.length.of("Valve lash; none said: none", 0.012, "zero or more").optional(),
    duration: q.angle.of("Crank degrees open at the check lift", "246 deg").optional(),
    at: q.length.of("The check lift that the duration is stated at", 0.05, "zero or more").optional(),
    of: word(["valve", "follower"], "Where the check lift is measured").optional(),
    durations: z
      .array(
        z.strictObject({
          duration: q.angle.of("Crank degrees open", "246 deg"),
          at: q.length.of("Check lift", 0.05, "zero or more"),
        }),
      )
      .meta({ description: "Durations at several check lifts" })
      .optional(),
    profile: profileTable(declared).optional(),
    lobe_separation: q.angle.of("Between the lobes' centres, in cam degrees", "108 deg").optional(),
    intake_centre: q.angle.of("Intake lobe's centre, crank degrees after top dead centre", "104 deg").optional(),
    centre: q.angle.of("This lobe's centre, crank degrees from top dead centre", "104 deg").optional(),
    // Accepted here so that a rule can say which two words to choose from.
    lift: z
      .union([z.string(), z.number()])
      .optional()
      .meta({ deprecated: true, description: "Say net_lift or lobe_lift" }),
  });
