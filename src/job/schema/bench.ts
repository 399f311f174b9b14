import { z } from "zod";
import { key, keys, requiredKey } from "./keys.ts";
import { date, record, text, word } from "./plain.ts";
import { quantity as q } from "./quantities.ts";

/** How readings were taken. May be stated in shop, job, stage or run; the nearest wins, key by key. */
export const benchSchema = () =>
  keys({
    name: key(true, text("The bench, as the shop calls it"), "Bench 1"),
    test_pressure: key(true, q.pressure.of("Pressure across the head while reading", "25 inH2O")),
    reads: key(true, word(["flow", "percent"], "What the bench shows: flow, or percent of a range")),
    meter: key(true, word(["orifice", "volumetric", "mass"], METER)),
    ranges: key(true, record("Flow at 100 % of each range of a percent bench", rangeSchema()), {
      3: { intake: "96.0 cfm", exhaust: "98.2 cfm" },
    }),
    leakage: key(true, leakageSchema(), { intake: "1.2 cfm", exhaust: "0.8 cfm", how: "port blanked" }),
    air: key(true, airSchema(), { temperature: "70 degF", pressure: "29.80 inHg", humidity: "45 %" }),
    bore_fixture: key(true, q.length.of("Bore of the fixture under the head", "3.450 in")),
    intake_entry: key(true, text("What guides air into the intake port", "clay radius")),
    exhaust_pipe: key(true, pipeSchema(), { diameter: "1.75 in", length: "8 in" }),
    attached: key(true, attachedSchema(), { intake: "none", exhaust: "none" }),
    accuracy: key(true, q.ratio.of("Of the bench, ± at k = 2", "1.5 %", "zero or more")),
    repeatability: key(true, repeatabilitySchema(), { spread: "1.2 %", of: 5 }),
    remount: key(true, q.ratio.of("± at k = 2 from taking the head off and on", "1.4 %", "zero or more")),
    lift_setting: key(true, q.length.of("± at k = 2 of setting the lift", "0.002 in", "zero or more")),
    resolution: key(true, q.flow.of("Smallest step that the bench shows", "0.1 cfm")),
    check_plate: key(true, plateSchema(), { nominal: "150 cfm", before: "149.4 cfm", after: "150.3 cfm" }),
    checked: key(true, date("When the bench was last checked")),
    against: key(true, text("What it was checked against"), "plate no. 2"),
  }).meta({ description: "How readings were taken" });

const METER = "orifice: its reading does not change with air density; volumetric and mass need `air`";

const rangeSchema = () =>
  keys({
    intake: key(true, q.flow.of("Flow at 100 % of this range, intake", "96.0 cfm")),
    exhaust: key(true, q.flow.of("Flow at 100 % of this range, exhaust", "98.2 cfm")),
  });

const leakageSchema = () =>
  keys({
    intake: key(true, q.flow.typed("Flow with the port blanked, intake", "1.2 cfm", "zero or more")),
    exhaust: key(true, q.flow.typed("Flow with the port blanked, exhaust", "0.8 cfm", "zero or more")),
    how: key(true, text("How it was taken", "port blanked")),
    test_pressure: key(true, q.pressure.of("Pressure at which it was taken", "10 inH2O")),
  }).meta({ description: "What bench and clay leak" });

const airSchema = () =>
  keys({
    temperature: key(true, q.temperature.of("Air at the bench", "70 degF")),
    pressure: key(true, q.pressure.of("Barometer, not corrected to sea level", "29.80 inHg")),
    humidity: key(true, q.ratio.of("Relative humidity", "45 %", "zero or more")),
  }).meta({ description: "Air at the bench" });

const pipeSchema = () => {
  const size = keys({
    diameter: key(true, q.length.of("Bore of the pipe", "1.75 in")),
    length: key(true, q.length.of("Length of the pipe", "8 in")),
  });
  return z.union([word(["none"], "No pipe"), size]).meta({ description: "none, or the pipe's size" });
};

const attachedSchema = () =>
  keys({
    intake: key(true, text("Manifold, carburettor …; or none", "none")),
    exhaust: key(true, text("Header …; or none", "none")),
  }).meta({ description: "What was bolted on" });

const repeatabilitySchema = () => {
  const spread = keys({
    spread: requiredKey(true, q.ratio.of("Largest less smallest of the repeats", "1.2 %", "zero or more")),
    of: requiredKey(true, wholeNumberOfRepeats()),
  });
  return z
    .union([q.ratio.of("± at k = 2", "0.8 %", "zero or more"), spread])
    .meta({ description: "Repeats without moving the head: their spread, or a plain ± at k = 2" });
};

const plateSchema = () =>
  keys({
    nominal: requiredKey(true, q.flow.of("What the plate should flow", "150 cfm")),
    before: key(true, q.flow.of("What it flowed before the runs", "149.4 cfm")),
    after: key(true, q.flow.of("What it flowed after the runs", "150.3 cfm")),
  }).meta({ description: "A plate of known flow, read before and after" });

/** The number of repeats of a spread: 2 to 25, the extent of the table of range factors. */
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
    })
    .meta({ form: { number: true } });
