import { z } from "zod";
import { benchSchema } from "./bench.ts";
import { engineSchema } from "./engine.ts";
import { customerSchema, headSchema, headsSchema, productSchema } from "./people.ts";
import { count, date, flag, text, texts, word } from "./plain.ts";
import { type Declared, quantities } from "./quantities.ts";
import { reportSchema } from "./report.ts";
import { stageSchema } from "./stage.ts";
import { unitsSchema } from "./units.ts";

/** Everything a job file may say, a customer's job and a product alike; bare numbers take the units of `declared`. */
export const jobSchema = (declared: Declared) => {
  const q = quantities(declared);
  const named = () => text("Words or a quantity, printed as typed");
  return z.strictObject({
    job: text("Ticket number; names the PDF", "2026-014").optional(),
    product: productSchema().optional(),
    issued: date("The date on the sheet and in the PDF; the clock is never read for it"),
    received: date("When the head came in").optional(),
    sheet: texts("Templates to print; none said: handover, for a product catalogue").optional(),
    revision: count("Above 1 also `replaces` and `because`").optional(),
    replaces: text("What this sheet replaces").optional(),
    because: text("Why it was corrected").optional(),
    draft: flag("Prints DRAFT across the head of the sheet").optional(),
    units: unitsSchema().optional(),
    paper: paper().optional(),
    customer: customerSchema().optional(),
    head: headSchema().optional(),
    heads: headsSchema().optional(),
    engine: engineSchema(q, declared).optional(),
    bench: benchSchema(q).optional(),
    report: reportSchema(q).optional(),
    may_compare: word(["yes", "no", "samples only"], "May other jobs draw this head").optional(),
    delivered: word(["bare", "assembled", "checking springs fitted"], "How the head leaves the shop").optional(),
    stages: z
      .array(stageSchema(q, declared))
      .min(1)
      .meta({ description: "The head through the work, oldest first: one is enough, two make a before and after" })
      .optional(),
    work: z.record(z.string(), texts("What was done there")).meta({ description: "What was done, by area" }).optional(),
    not_done: texts("What was not done or inspected").optional(),
    compare: z
      .array(
        z.strictObject({
          job: text("Path of the other job", "2025-101.yaml"),
          stage: text("Which of its stages; none said: the last that repeats no other").optional(),
          label: text("What this sheet calls it").optional(),
        }),
      )
      .meta({ description: "Other heads of the shop" })
      .optional(),
    samples: z
      .array(
        z.union([
          text("Path of a job", "2026-014.yaml"),
          z.strictObject({ job: text("Path of a job"), stage: text("Which of its stages").optional() }),
        ]),
      )
      .meta({ description: "Heads measured so far, for a product" })
      .optional(),
    checks: z
      .array(
        z.strictObject({
          check: text("What was checked", "Pressure test"),
          method: text("How").optional(),
          result: text("What came of it", "no leak").optional(),
          value: named().optional(),
          limit: named().optional(),
        }),
      )
      .meta({ description: "What was checked, how, and what came of it" })
      .optional(),
    also_measured: z
      .array(z.object({ what: text("What was measured"), how: text("How").optional() }).catchall(named()))
      .meta({ description: "Anything without a key of its own: what, how, and any number of `label: value`" })
      .optional(),
    parts: z
      .array(
        z.strictObject({
          part: text("Part", "Valve guide"),
          quantity: text("How many", "12").optional(),
          note: text("Note").optional(),
        }),
      )
      .meta({ description: "Parts fitted" })
      .optional(),
    springs: z
      .strictObject({
        installed_height: q.length.of("Height with the valve shut", 1.56).optional(),
        seat_force: q.force.of("Force with the valve shut", "84 lbf").optional(),
        open_force: q.force.of("Force with the valve open", "215 lbf").optional(),
        open_at: q.length.of("Lift at which the open force was taken", 0.43).optional(),
        coil_bind: q.length.of("Height when solid", 1.02).optional(),
        retainer_to_seal: q.length.of("Retainer to seal or guide, valve shut", 0.51).optional(),
        mass: q.mass.of("Of valve, retainer and locks", "98 g").optional(),
      })
      .meta({ description: "Springs as set up" })
      .optional(),
    assembly: z.record(z.string(), named()).meta({ description: "Other facts of the assembly" }).optional(),
    photos: z
      .array(z.strictObject({ file: text("Picture beside the job"), caption: text("Caption").optional() }))
      .meta({ description: "Photos" })
      .optional(),
    remarks: text("The porter's own words to this customer").optional(),
    cautions: texts("Cautions beyond the usual ones").optional(),
    internal: z
      .union([texts("Notes"), z.record(z.string(), texts("Notes"))])
      .meta({ description: "The shop's own notes; never printed, never embedded" })
      .optional(),
  });
};

export const paper = () => word(["A4", "Letter"], "Paper");

export type Job = z.output<ReturnType<typeof jobSchema>>;
export type JobStage = NonNullable<Job["stages"]>[number];
export type JobPort = NonNullable<JobStage["intake"]>;
export type JobRun = NonNullable<JobStage["runs"]>[number];
export type JobBench = NonNullable<Job["bench"]>;
export type JobEngine = NonNullable<Job["engine"]>;
export type JobCam = NonNullable<JobEngine["intake_cam"]>;
