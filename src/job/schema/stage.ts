import { z } from "zod";
import { benchSchema } from "./bench.ts";
import { count, date, text } from "./plain.ts";
import { portSchema } from "./port.ts";
import type { Declared, Quantities } from "./quantities.ts";

const FLOW = "Readings as typed on the paper: write `flow: |` and the table indented under it";

/** One state of the head: as received, finished. */
export const stageSchema = (q: Quantities, declared: Declared) =>
  z
    .strictObject({
      name: text("What the shop calls this state of the head", "As received"),
      date: date("When it was measured").optional(),
      by: text("Who measured it").optional(),
      bench: benchSchema(q).optional(),
      repeats: text("Name of the stage that this one measures again").optional(),
      intake: portSchema(q, declared).optional(),
      exhaust: portSchema(q, declared).optional(),
      chamber: q.volume.inherited("Volume of the chamber, valves and plug in", "43.2 cc").optional(),
      chambers: z
        .record(z.string(), q.volume.of("Volume of this chamber", "43.2 cc"))
        .meta({ description: "Chamber volumes by number" })
        .optional(),
      deck: z
        .strictObject({
          cut: q.length.inherited("Taken off in this job", 0.01, "zero or more").optional(),
          cut_before: q.length.inherited("Taken off before this job, by anyone", 0.02, "zero or more").optional(),
          thickness: q.length.inherited("Thickness of the head", 0.485).optional(),
          flatness: q.length.inherited("Out of flat by", 0.0015, "zero or more").optional(),
        })
        .meta({ description: "The face to the block" })
        .optional(),
      layout: layoutSchema(q).optional(),
      flow: z.string().meta({ description: FLOW }).optional(),
      runs: z.array(runSchema(q)).meta({ description: "The long form of flow: several sweeps" }).optional(),
    })
    .meta({ description: "One state of the head" });

const layoutSchema = (q: Quantities) => {
  const centres = (side: string) =>
    z
      .array(z.array(q.length.of("Across and along from the bore's centre", 0.78, "any")))
      .meta({ description: `${side} valve centres from the bore's centre: [across, along] each` });
  return z
    .strictObject({
      bore: q.length.of("Bore that the layout is drawn in", 3.425).optional(),
      intake: centres("Intake").optional(),
      exhaust: centres("Exhaust").optional(),
      angle: z
        .strictObject({
          intake: q.angle.of("From the bore's axis", "20 deg", "any").optional(),
          exhaust: q.angle.of("From the bore's axis", "20 deg", "any").optional(),
        })
        .meta({ description: "How far the valves lean from the bore's axis" })
        .optional(),
    })
    .meta({ description: "Where the valves sit over the bore" });
};

const runSchema = (q: Quantities) =>
  z.strictObject({
    set: text("Name of the conditions that this run belongs to", "with pipe").optional(),
    cylinder: count("Which cylinder; none said: 1").optional(),
    hand: text("For mirror-image or unlike ports", "end").optional(),
    mount: count("Counts up when the head was taken off and put back").optional(),
    bench: benchSchema(q).optional(),
    flow: z.string().meta({ description: FLOW }).optional(),
    file: text("A readings file (CSV or TSV) beside the job", "bench/2026-014.csv").optional(),
  });
