import { z } from "zod";
import { benchSchema } from "./bench.ts";
import { key, keys, requiredKey } from "./keys.ts";
import { count, date, list, record, text } from "./plain.ts";
import { portSchema } from "./port.ts";
import { quantity as q } from "./quantities.ts";
import { valveTrainTable } from "./valve-train.ts";

const INTAKE = { valve: 1.654, stem: 0.315, throat: 1.4, seat: { angle: "45 deg", width: 0.06 } };
const EXHAUST = { valve: 1.378, stem: 0.315, throat: 1.16, seat: { angle: "45 deg", width: 0.075 } };
const FLOW = "lift    intake  exhaust\n0.100    40.1     33.0\n0.200    78.4     63.1\n";
const VALVE_TRAIN =
  "valve  height  shim   tip    drop\n1I     1.560   0.030  1.612  0.045\n1E     1.548   0.015  1.640  0.060\n";
const flowTable = () =>
  z.string().meta({ description: "Readings as typed on the paper: write `flow: |` and the table indented under it" });

/** Example of a stage. */
export const STAGE = { name: "As received", intake: INTAKE, flow: FLOW };

/** One state of the head: as received, finished. */
export const stageSchema = () =>
  keys({
    name: requiredKey(true, text("What the shop calls this state of the head", "As received")),
    date: key(true, date("When it was measured")),
    by: key(false, text("Who measured it"), "R. Calloway"),
    bench: key("rewritten", benchSchema(), { test_pressure: "28 inH2O" }),
    repeats: key(true, text("Name of the stage that this one measures again"), "As received"),
    intake: key(true, portSchema(), INTAKE),
    exhaust: key(true, portSchema(), EXHAUST),
    chamber: key(true, q.volume.inherited("Volume of the chamber, valves and plug in", "43.2 cc")),
    chambers: key(true, record("Chamber volumes by number", q.volume.of("Volume of this chamber", "43.2 cc")), {
      1: 43.0,
      2: 43.4,
    }),
    valve_train: key(true, valveTrainTable(), VALVE_TRAIN),
    vacuum_test: key(true, text("How the seats were tested for leaks", "20 inHg, 30 s"), "20 inHg, 30 s"),
    deck: key(true, deckSchema(), { cut: 0.01, thickness: 0.485 }),
    layout: key(true, layoutSchema(), { bore: 3.425, intake: [[0.78, 0.06]], exhaust: [[-0.88, 0.03]] }),
    flow: key("rewritten", flowTable(), FLOW),
    runs: key("rewritten", list("The long form of flow: several sweeps", runSchema()), [
      { cylinder: 1, file: "bench/2026-014.csv" },
    ]),
  }).meta({ description: "One state of the head" });

const deckSchema = () =>
  keys({
    cut: key(true, q.length.inherited("Taken off in this job", 0.01, "zero or more")),
    cut_before: key(true, q.length.inherited("Taken off before this job, by anyone", 0.02, "zero or more")),
    thickness: key(true, q.length.inherited("Thickness of the head", 0.485)),
    flatness: key(true, q.length.inherited("Out of flat by", 0.0015, "zero or more")),
    finish: key(true, q.length.inherited("Mean roughness Ra of the face", "1.2 um")),
  }).meta({ description: "The face to the block" });

const layoutSchema = () => {
  const centre = () => z.array(q.length.of("Across and along from the bore's centre", 0.78, "any"));
  const centres = (side: string) =>
    list(`${side} valve centres from the bore's centre: [across, along] each`, centre());
  const angle = () => q.angle.of("From the bore's axis", "20 deg", "any");
  return keys({
    bore: key(true, q.length.of("Bore that the layout is drawn in", 3.425)),
    intake: key(true, centres("Intake"), [[0.78, 0.06]]),
    exhaust: key(true, centres("Exhaust"), [[-0.88, 0.03]]),
    angle: key(
      true,
      keys({ intake: key(true, angle()), exhaust: key(true, angle()) }).meta({
        description: "How far the valves lean from the bore's axis",
      }),
      { intake: "20 deg", exhaust: "20 deg" },
    ),
  }).meta({ description: "Where the valves sit over the bore" });
};

const runSchema = () =>
  keys({
    set: key(true, text("Name of the conditions that this run belongs to", "with pipe")),
    cylinder: key(true, count("Which cylinder; none said: 1")),
    hand: key(true, text("For mirror-image or unlike ports", "end")),
    mount: key(true, count("Counts up when the head was taken off and put back")),
    bench: key("rewritten", benchSchema(), { test_pressure: "28 inH2O" }),
    flow: key("rewritten", flowTable(), FLOW),
    file: key(false, text("A readings file (CSV or TSV) beside the job", "bench/2026-014.csv")),
  });
