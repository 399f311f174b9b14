import { z } from "zod";
import type { Metres } from "../../units/quantity.ts";
import { key, keys } from "./keys.ts";
import { flag, list, text, word } from "./plain.ts";
import { quantity as q } from "./quantities.ts";

/** Named positions on the lift axis. */
const LIFT_NAMES = ["low", "mid", "high", "cam", "peak"] as const;
type LiftName = (typeof LIFT_NAMES)[number];

/** The parts that may be held back from the sheet. */
const HOLDABLE = ["pinch", "sections", "seat cuts", "port volume"] as const;

/** The options of a sheet. */
export const reportSchema = () =>
  keys({
    test_pressure: key(true, q.pressure.of("What everything is reported at", "28 inH2O")),
    lifts: key(true, liftsSchema(), [0.2, 0.4, "cam", "peak"]),
    headline_set: key(true, text("Which set of runs leads", "bare")),
    pinch_limit: key("pinch", q.speed.of("Gas speed at the pinch; common practice 0.45 to 0.55 Mach", "0.55 Mach")),
    power_per_flow: key(
      true,
      q.powerPerFlow.of("At 28 inH2O, per cylinder; common practice; left out, no power is printed", "0.257 hp/cfm"),
    ),
    hold_back: key(
      false,
      list("The shop's recipe: not on paper, not in the file", word(HOLDABLE, "Part of the shop's recipe")),
      ["pinch", "sections"],
    ),
    embed: key(false, word(["none", "readings", "figures", "job"], "What the PDF carries with it")),
    strict: key(true, flag("Refuse to compare unlike conditions"), true),
  }).meta({ description: "What the sheet says, and what it keeps to itself" });

const liftsSchema = () =>
  z
    .array(
      z.union([
        z.enum(LIFT_NAMES).meta({ form: { text: true } }),
        q.length.of("A lift, or low, mid, high, cam, peak", 0.2),
      ]),
    )
    .transform((lifts): readonly (LiftName | Metres)[] => lifts)
    .meta({ description: "Where the sheet compares in words" });
