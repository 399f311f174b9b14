import type { Kind } from "../../units/table.ts";

/** What stands in a blank: words, a quantity whose unit is printed beside it, or lines to write on. */
export type FormKind = Exclude<Kind, "mass" | "speed" | "rotation" | "powerPerFlow"> | "barometer" | "words";

/** A key of the job file that the bench form asks for. */
export type FormKey = {
  /** As in the job file; `stages.` is the stage on the form. */
  readonly path: string;
  readonly label: string;
  readonly kind: FormKind;
  /** Twelfths of the page's width, where it stands among others. */
  readonly room: number;
  /** What the job or shop says for all its stages is printed here. */
  readonly standing?: true;
};

const key = (path: string, label: string, kind: FormKind, room: number, more: { standing?: true } = {}): FormKey => ({
  path,
  label,
  kind,
  room,
  ...more,
});

/** One port's sizes, once for the intake and once for the exhaust. */
const port = (side: "intake" | "exhaust"): readonly FormKey[] => [
  key(`stages.${side}.valve`, "Valve", "length", 2),
  key(`stages.${side}.stem`, "Stem", "length", 2),
  key(`stages.${side}.throat`, "Throat", "length", 2),
  key(`stages.${side}.seat.angle`, "Seat angle", "angle", 2),
  key(`stages.${side}.seat.width`, "Seat width", "length", 2.2),
  key(`stages.${side}.pinch`, "Pinch, w × h", "length", 2.8),
  key(`stages.${side}.port_volume`, "Port volume", "volume", 2.3),
];

/** All that a bench form asks, in the order of the job file: typing it in goes from top to bottom. */
export const FORM_KEYS: readonly FormKey[] = [
  key("job", "Job", "words", 2),
  key("issued", "Issued", "words", 2),
  key("received", "Received", "words", 2),
  key("customer.name", "Customer", "words", 6),
  key("head.name", "Head", "words", 6),
  key("head.casting", "Casting", "words", 3),
  key("head.stamped", "Stamped", "words", 3),
  key("head.condition", "Condition on arrival", "words", 12),
  key("stages.name", "Stage", "words", 4),
  key("stages.date", "Date", "words", 3),
  key("stages.by", "By", "words", 3),
  key("stages.bench.test_pressure", "Test pressure", "pressure", 2, { standing: true }),
  key("stages.bench.leakage.intake", "Leakage, intake", "flow", 2),
  key("stages.bench.leakage.exhaust", "Leakage, exhaust", "flow", 2),
  key("stages.bench.air.temperature", "Air temperature", "temperature", 2),
  key("stages.bench.air.pressure", "Barometer", "barometer", 2),
  key("stages.bench.air.humidity", "Humidity", "ratio", 2),
  key("stages.bench.bore_fixture", "Fixture bore", "length", 2, { standing: true }),
  key("stages.bench.intake_entry", "Intake entry", "words", 6, { standing: true }),
  key("stages.bench.exhaust_pipe", "Exhaust pipe, diameter × length", "length", 6, { standing: true }),
  ...port("intake"),
  ...port("exhaust"),
  key("stages.chamber", "Chamber", "volume", 3),
  key("stages.runs.cylinder", "Cylinder flowed", "words", 3),
  key("stages.flow", "Readings", "flow", 12),
  key("work", "Work done", "words", 12),
  key("remarks", "Notes", "words", 12),
];
