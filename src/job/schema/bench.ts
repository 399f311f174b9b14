import { z } from "zod";
import { date, text, word } from "./plain.ts";
import type { Quantities } from "./quantities.ts";

/** How readings were taken. Stands in the shop, the job, a stage or a run; the nearer one wins, key by key. */
export const benchSchema = (q: Quantities) =>
  z
    .strictObject({
      name: text("The bench, as the shop calls it").optional(),
      test_pressure: q.pressure.of("Pressure across the head while reading", "25 inH2O").optional(),
      reads: word(["flow", "percent"], "What the bench shows: flow, or percent of a range").optional(),
      meter: word(
        ["orifice", "volumetric", "mass"],
        "orifice: its reading does not change with air density; volumetric and mass need `air`",
      ).optional(),
      ranges: z
        .record(
          z.string(),
          z.strictObject({
            intake: q.flow.of("Flow at 100 % of this range, intake", "96.0 cfm").optional(),
            exhaust: q.flow.of("Flow at 100 % of this range, exhaust", "98.2 cfm").optional(),
          }),
        )
        .meta({ description: "Flow at 100 % of each range of a percent bench" })
        .optional(),
      leakage: z
        .strictObject({
          intake: q.flow.of("Flow with the port blanked, intake", "1.2 cfm", "zero or more").optional(),
          exhaust: q.flow.of("Flow with the port blanked, exhaust", "0.8 cfm", "zero or more").optional(),
          how: text("How it was taken", "port blanked").optional(),
          test_pressure: q.pressure.of("Pressure at which it was taken", "10 inH2O").optional(),
        })
        .meta({ description: "What bench and clay leak" })
        .optional(),
      air: z
        .strictObject({
          temperature: q.temperature.of("Air at the bench", "70 degF").optional(),
          pressure: q.pressure.of("Barometer, not corrected to sea level", "29.80 inHg").optional(),
          humidity: q.ratio.of("Relative humidity", "45 %", "zero or more").optional(),
        })
        .meta({ description: "Air at the bench" })
        .optional(),
      bore_fixture: q.length.of("Bore of the fixture under the head", "3.450 in").optional(),
      intake_entry: text("What guides air into the intake port", "clay radius").optional(),
      exhaust_pipe: z
        .union([
          word(["none"], "No pipe"),
          z.strictObject({
            diameter: q.length.of("Bore of the pipe", "1.75 in").optional(),
            length: q.length.of("Length of the pipe", "8 in").optional(),
          }),
        ])
        .meta({ description: "none, or the pipe's size" })
        .optional(),
      attached: z
        .strictObject({
          intake: text("Manifold, carburettor …; or none", "none").optional(),
          exhaust: text("Header …; or none", "none").optional(),
        })
        .meta({ description: "What was bolted on" })
        .optional(),
      accuracy: q.ratio.of("Of the bench, ± at k = 2", "1.5 %", "zero or more").optional(),
      repeatability: z
        .union([
          q.ratio.of("± at k = 2", "0.8 %", "zero or more"),
          z.strictObject({
            spread: q.ratio.of("Largest less smallest of the repeats", "1.2 %", "zero or more"),
            of: wholeNumberOfRepeats(),
          }),
        ])
        .meta({ description: "Repeats without moving the head: their spread, or a plain ± at k = 2" })
        .optional(),
      remount: q.ratio.of("± at k = 2 from taking the head off and on", "1.4 %", "zero or more").optional(),
      lift_setting: q.length.of("± at k = 2 of setting the lift", "0.002 in", "zero or more").optional(),
      resolution: q.flow.of("Smallest step that the bench shows", "0.1 cfm").optional(),
      check_plate: z
        .strictObject({
          nominal: q.flow.of("What the plate should flow", "150 cfm"),
          before: q.flow.of("What it flowed before the runs", "149.4 cfm").optional(),
          after: q.flow.of("What it flowed after the runs", "150.3 cfm").optional(),
        })
        .meta({ description: "A plate of known flow, read before and after" })
        .optional(),
      checked: date("When the bench was last checked").optional(),
      against: text("What it was checked against").optional(),
    })
    .meta({ description: "How readings were taken" });

/** How many repeats a spread stands for: 2 to 25, as far as the table of range factors goes. */
const wholeNumberOfRepeats = () =>
  z
    .union([z.string(), z.number()])
    .meta({ description: "How many repeats", examples: [5] })
    .transform((value, context): number => {
      const repeats = Number(value);
      if (Number.isInteger(repeats) && repeats >= 2 && repeats <= 25) return repeats;
      context.addIssue({
        code: "custom",
        message: `\`${value}\` repeats is out of range: 2 to 25`,
        params: { code: "job/repeats-of" },
      });
      return z.NEVER;
    });
