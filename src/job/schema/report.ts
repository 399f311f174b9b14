import { z } from "zod";
import type { Metres } from "../../units/quantity.ts";
import { flag, text, word } from "./plain.ts";
import type { Quantities } from "./quantities.ts";

/** Places on the lift axis that go by a name. */
const LIFT_NAMES = ["low", "mid", "high", "cam", "peak"] as const;
export type LiftName = (typeof LIFT_NAMES)[number];

/** What may be held back from the sheet. */
const HOLDABLE = ["pinch", "sections", "seat cuts", "port volume"] as const;

/** What the sheet says, and what it keeps to itself. */
export const reportSchema = (q: Quantities) =>
  z
    .strictObject({
      test_pressure: q.pressure.of("What everything is reported at", "28 inH2O").optional(),
      lifts: z
        .array(z.union([z.enum(LIFT_NAMES), q.length.of("A lift, or low, mid, high, cam, peak", 0.2)]))
        .transform((lifts): readonly (LiftName | Metres)[] => lifts)
        .meta({ description: "Where the sheet compares in words" })
        .optional(),
      headline_set: text("Which set of runs leads", "bare").optional(),
      pinch_limit: q.speed.of("Gas speed at the pinch; common practice 0.45 to 0.55 Mach", "0.55 Mach").optional(),
      power_per_flow: q.powerPerFlow
        .of("At 28 inH2O, per cylinder; common practice; left out, no power is printed", "0.257 hp/cfm")
        .optional(),
      hold_back: z
        .array(word(HOLDABLE, "Part of the shop's recipe"))
        .meta({ description: "The shop's recipe: not on paper, not in the file" })
        .optional(),
      embed: word(["none", "readings", "figures", "job"], "What the PDF carries with it").optional(),
      strict: flag("Refuse to compare unlike conditions").optional(),
    })
    .meta({ description: "What the sheet says, and what it keeps to itself" });
