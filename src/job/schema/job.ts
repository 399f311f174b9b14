import { z } from "zod";
import { memoize } from "../../util/memoize.ts";
import { benchSchema } from "./bench.ts";
import { engineSchema } from "./engine.ts";
import { key, keys, requiredKey } from "./keys.ts";
import { customerSchema, headSchema, headsSchema, productSchema } from "./people.ts";
import { count, date, flag, list, pictureFocus, record, someTexts, text, texts, word } from "./plain.ts";
import { quantity as q } from "./quantities.ts";
import { reportSchema } from "./report.ts";
import { STAGE, stageSchema } from "./stage.ts";
import { UNITS, unitsSchema } from "./units.ts";
import { agreedSchema, valveTrainLimitsSchema } from "./valve-train.ts";

const buildSchema = () =>
  keys({
    job: key(true, text("Ticket number; names the PDF", "2026-014")),
    product: key(false, productSchema(), { part: "QH-100", name: "Wedge six" }),
    issued: requiredKey(true, date("The date on the sheet and in the PDF; the clock is never read for it")),
    received: key(true, date("When the head came in")),
    sheet: key(false, someTexts(SHEET, TEMPLATES), ["handover", "attachment"]),
    revision: key(true, count("Above 1 also `replaces` and `because`")),
    replaces: key(true, text("What this sheet replaces"), "revision 1 of 2026-03-10"),
    because: key(true, text("Why it was corrected"), "exhaust of cylinder 3 typed twice"),
    draft: key(true, flag("Prints Draft on every page"), true),
    units: key("rewritten", unitsSchema(), UNITS),
    paper: key(false, paper()),
    customer: key(true, customerSchema(), { name: "H. Ashgrove" }),
    head: key(true, headSchema(), { name: "Two-valve alloy four" }),
    heads: key(true, headsSchema(), PAIR),
    engine: key(true, engineSchema(), { name: "Launch engine", cylinders: 4, bore: 3.425, stroke: 2.953 }),
    bench: key("rewritten", benchSchema(), { test_pressure: "28 inH2O" }),
    report: key("rewritten", reportSchema(), { test_pressure: "28 inH2O" }),
    may_compare: key(false, word(["yes", "no", "samples only"], "May other jobs draw this head")),
    delivered: key(true, word(["bare", "assembled", "checking springs fitted"], "How the head leaves the shop")),
    stages: key("rewritten", list(STAGES, stageSchema()).min(1), [STAGE]),
    work: key(true, record("What was done, by area", texts("What was done there")), {
      "Intake ports": ["Bowls opened and blended to the seat"],
    }),
    not_done: key(true, texts("What was not done or inspected"), ["Guides not replaced"]),
    compare: key(false, list("Other heads of the shop", comparedSchema()), [
      { job: "2025-101.yaml", stage: "Finished", label: "Same casting, standard valves" },
    ]),
    heads_of: key(false, list(HEADS_OF, otherHeadSchema()).min(2).max(4), ["2026-014.yaml", "2026-019.yaml"]),
    opinion: key(true, text("The porter's own judgement, quoted under his name on `side-by-side`"), OPINION),
    samples: key(false, list("Heads measured so far, for a product", sampleSchema()), ["2026-014.yaml"]),
    checks: key(true, list("What was checked, how, and what came of it", checkSchema()), [
      { check: "Pressure test", method: "40 psi hot water 10 min", result: "no leak" },
    ]),
    also_measured: key(true, list(ALSO_MEASURED, alsoMeasuredSchema()), [
      { what: "Short-side radius", intake: "12 mm", exhaust: "9 mm", how: "radius gauge" },
    ]),
    parts: key(true, list("Parts fitted", partSchema()), [{ part: "Valve guide", quantity: 12, note: "bronze" }]),
    springs: key(true, springsSchema(), { installed_height: "1.560 in", set_up_for: "0.450 in" }),
    guides: key(true, guidesSchema(), { material: "bronze", clearance: { intake: 0.0012, exhaust: 0.0016 } }),
    valve_train_limits: key(true, valveTrainLimitsSchema(), { alike: 0.005, guide: 0.0025 }),
    agreed: key(true, agreedSchema(), ["3E: seat renewed, the vacuum held"]),
    assembly: key(true, record("Other facts of the assembly", named()), { "Tip height intake": "1.612 in" }),
    photos: key(false, list("Photos", photoSchema()), [{ file: "photos/chamber.jpg", caption: "Chamber 1" }]),
    remarks: key(true, text("The porter's own words to this customer"), REMARKS),
    cautions: key(true, texts("Cautions beyond the usual ones"), ["Thin wall at cylinder 3"]),
    internal: key(
      false,
      z.union([texts("Notes"), z.record(z.string(), texts("Notes"))]).meta({ description: INTERNAL }),
      ["Guides: bring back in spring"],
    ),
  });

/** The schema of a job file, of a customer's job and a product alike: built once, which takes longer than parsing a job. */
export const jobSchema = memoize(buildSchema, { max: 1, key: () => "job" });

const HEADS_OF =
  "Heads to set side by side for this customer's engine, in place of stages: paths of jobs, the first is A";
const OPINION = "I would fit A, and keep B for a longer cam.";
const SHEET = "Templates to print; none said: handover, for a product catalogue";
/** The templates that come with the program. */
export const TEMPLATES = ["handover", "engine", "set-up", "side-by-side", "attachment", "catalogue"] as const;
const STAGES = "The head through the work, oldest first: one is enough, two make a before and after";
const ALSO_MEASURED = "Anything without a key of its own: what, how, and any number of `label: value`";
const INTERNAL = "The shop's own notes; never printed, never embedded";
const REMARKS = "Flows well for its size; run it with the short pipe.";
const PAIR = [
  { id: "L", cylinders: [1, 3, 5] },
  { id: "R", cylinders: [2, 4, 6] },
];

const named = () => text("Words or a quantity, printed as typed");

const comparedSchema = () =>
  keys({
    job: requiredKey(false, text("Path of the other job", "2025-101.yaml")),
    stage: key(false, text("Which of its stages; none said: the last that repeats no other"), "Finished"),
    label: key(false, text("What this sheet calls it"), "Same casting, standard valves"),
  });

/** A head by its path alone, or with its stage and label. */
const otherHeadSchema = () => z.union([text("Path of a job", "2026-014.yaml"), comparedSchema()]);

const sampleSchema = () => {
  const stage = keys({
    job: requiredKey(false, text("Path of a job"), "2026-014.yaml"),
    stage: key(false, text("Which of its stages"), "Finished"),
  });
  return z.union([text("Path of a job", "2026-014.yaml"), stage]);
};

const checkSchema = () =>
  keys({
    check: requiredKey(true, text("What was checked", "Pressure test")),
    method: key(true, text("How"), "40 psi hot water 10 min"),
    result: key(true, text("What came of it", "no leak")),
    value: key(true, named(), "0.0015 in"),
    limit: key(true, named(), "0.003 in"),
  });

const alsoMeasuredSchema = () =>
  keys({
    what: requiredKey(true, text("What was measured"), "Short-side radius"),
    how: key(true, text("How"), "radius gauge"),
  }).catchall(named());

const partSchema = () =>
  keys({
    part: requiredKey(true, text("Part", "Valve guide")),
    quantity: key(true, text("How many", "12")),
    note: key(true, text("Note"), "bronze"),
  });

const springsSchema = () =>
  keys({
    ...springKeys(),
    intake: key(true, keys(springKeys()).meta({ description: "Where it differs on the intake" }), {
      rate: "242 lbf/in",
    }),
    exhaust: key(true, keys(springKeys()).meta({ description: "Where it differs on the exhaust" }), {
      rate: "242 lbf/in",
    }),
  }).meta({ description: "Springs as set up; what differs by side stands under `intake` and `exhaust`" });

const springKeys = () => ({
  part: key(true, text("Spring by part number or in words", "single, damper; S-442")),
  rate: key(true, q.springRate.of("Rate; none said: from the two forces", "320 lbf/in")),
  installed_height: key(true, q.length.of("Height with the valve shut", 1.56)),
  seat_force: key(true, q.force.of("Force with the valve shut", "84 lbf")),
  open_force: key(true, q.force.of("Force with the valve open", "215 lbf")),
  open_at: key(true, q.length.of("Lift at which the open force was taken", 0.43)),
  coil_bind: key(true, q.length.of("Height when solid", 1.02)),
  retainer_to_seal: key(true, q.length.of("Retainer to seal or guide, valve shut", 0.51)),
  set_up_for: key(true, q.length.of("Largest valve lift that the springs are set up for", 0.45)),
  mass: key(true, q.mass.of("Of valve, retainer and locks", "98 g")),
});

const guidesSchema = () => {
  const clearance = (side: string) => q.length.of(`Stem to guide, ${side}`, 0.0012);
  return keys({
    material: key(true, text("What the guides are made of"), "bronze"),
    clearance: key(
      true,
      keys({
        intake: key(true, clearance("intake")),
        exhaust: key(true, clearance("exhaust")),
      }).meta({ description: "Clearance of stem to guide" }),
      { intake: 0.0012, exhaust: 0.0016 },
    ),
  }).meta({ description: "Valve guides" });
};

const photoSchema = () =>
  keys({
    file: requiredKey(false, text("Picture beside the job"), "photos/chamber.jpg"),
    caption: key(false, text("Caption"), "Chamber 1, finished"),
    as: key(
      false,
      word(["hero", "detail", "before", "after"], "What it is for; `hero` stands beside the title"),
      "hero",
    ),
    focus: key(false, pictureFocus("What stays in the middle where it is cropped"), [0.5, 0.4]),
  });

export const paper = () => word(["A4", "Letter"], "Paper");

export type Job = z.output<ReturnType<typeof jobSchema>>;
export type JobStage = NonNullable<Job["stages"]>[number];
export type JobPort = NonNullable<JobStage["intake"]>;
export type JobRun = NonNullable<JobStage["runs"]>[number];
export type JobBench = NonNullable<Job["bench"]>;
export type JobEngine = NonNullable<Job["engine"]>;
export type JobCam = NonNullable<JobEngine["intake_cam"]>;
