import type { Kind } from "../../units/table.ts";

/** Content of a blank: text, or a quantity whose unit is printed beside it. */
type FormKind = Exclude<Kind, "mass" | "speed" | "rotation" | "powerPerFlow"> | "barometer" | "words";

/** A key of the job file that the bench form asks for. */
export type FormKey = {
  /** Path in the job file; `stages.` is the stage on the form. */
  readonly path: string;
  readonly label: string;
  readonly kind: FormKind;
  /** Width in a row with others, in twelfths of the page. */
  readonly room: number;
  /** The value stated for all stages by job or shop is printed. */
  readonly standing?: true;
};

const formKey = (
  path: string,
  label: string,
  kind: FormKind,
  room: number,
  more: { standing?: true } = {},
): FormKey => ({
  path,
  label,
  kind,
  room,
  ...more,
});

/** Keys of one port. */
const portKeys = (side: "intake" | "exhaust"): readonly FormKey[] => [
  formKey(`stages.${side}.valve`, "Valve", "length", 2),
  formKey(`stages.${side}.stem`, "Stem", "length", 2),
  formKey(`stages.${side}.throat`, "Throat", "length", 2),
  formKey(`stages.${side}.seat.angle`, "Seat angle", "angle", 2),
  formKey(`stages.${side}.seat.width`, "Seat width", "length", 2.2),
  formKey(`stages.${side}.pinch`, "Pinch, w × h", "length", 2.8),
  formKey(`stages.${side}.port_volume`, "Port volume", "volume", 2.3),
];

/** The keys of a bench form in the order of the job file, so that they are typed in from top to bottom. */
export const FORM_KEYS: readonly FormKey[] = [
  formKey("job", "Job", "words", 2),
  formKey("issued", "Issued", "words", 2),
  formKey("received", "Received", "words", 2),
  formKey("customer.name", "Customer", "words", 6),
  formKey("head.name", "Head", "words", 6),
  formKey("head.casting", "Casting", "words", 3),
  formKey("head.stamped", "Stamped", "words", 3),
  formKey("head.condition", "Condition on arrival", "words", 12),
  formKey("stages.name", "Stage", "words", 4),
  formKey("stages.date", "Date", "words", 3),
  formKey("stages.by", "By", "words", 3),
  formKey("stages.bench.test_pressure", "Test pressure", "pressure", 2, { standing: true }),
  formKey("stages.bench.leakage.intake", "Leakage, intake", "flow", 2),
  formKey("stages.bench.leakage.exhaust", "Leakage, exhaust", "flow", 2),
  formKey("stages.bench.air.temperature", "Air temperature", "temperature", 2),
  formKey("stages.bench.air.pressure", "Barometer", "barometer", 2),
  formKey("stages.bench.air.humidity", "Humidity", "ratio", 2),
  formKey("stages.bench.bore_fixture", "Fixture bore", "length", 2, { standing: true }),
  formKey("stages.bench.intake_entry", "Intake entry", "words", 6, { standing: true }),
  formKey("stages.bench.exhaust_pipe", "Exhaust pipe, diameter × length", "length", 6, { standing: true }),
  ...portKeys("intake"),
  ...portKeys("exhaust"),
  formKey("stages.chamber", "Chamber", "volume", 3),
  formKey("stages.runs.cylinder", "Cylinder flowed", "words", 3),
  formKey("stages.flow", "Readings", "flow", 12),
  formKey("work", "Work done", "words", 5),
  formKey("not_done", "Not done", "words", 3),
  formKey("remarks", "Notes", "words", 4),
];

const setUpPortKeys = (side: "intake" | "exhaust"): readonly FormKey[] => [
  formKey(`stages.${side}.seat.top`, "Top, ° ×", "length", 1.7),
  formKey(`stages.${side}.seat.bottom`, "Bottom, ° ×", "length", 2.2),
  formKey(`stages.${side}.seat.outside`, "Seat outside", "length", 2.6),
  formKey(`stages.${side}.valve.margin`, "Margin", "length", 1.8),
  formKey(`stages.${side}.valve.back_cut`, "Back, ° ×", "length", 1.9),
  formKey(`stages.${side}.opening`, "Port, w × h", "length", 2.3),
  formKey(`stages.${side}.gasket_window`, "Gasket, w × h", "length", 2.6),
];

/** The keys of a second page where a job asks for a set-up sheet; those of the stage are left blank. */
export const SET_UP_KEYS: readonly FormKey[] = [
  ...setUpPortKeys("intake"),
  ...setUpPortKeys("exhaust"),
  formKey("stages.vacuum_test", "Vacuum test", "words", 3),
  formKey("stages.deck.cut", "Deck cut", "length", 2),
  formKey("stages.deck.thickness", "Thickness", "length", 2),
  formKey("stages.deck.flatness", "Flatness", "length", 2),
  formKey("stages.deck.finish", "Finish, Ra", "words", 3),
  formKey("springs.part", "Spring", "words", 4),
  formKey("springs.rate", "Rate", "springRate", 2),
  formKey("springs.installed_height", "Installed height", "length", 2),
  formKey("springs.seat_force", "Seat force", "force", 2),
  formKey("springs.open_force", "Open force", "force", 2),
  formKey("springs.open_at", "Open at", "length", 2),
  formKey("springs.coil_bind", "Coil bind", "length", 2),
  formKey("springs.retainer_to_seal", "Retainer to seal", "length", 2),
  formKey("springs.set_up_for", "Set up for", "length", 2),
  formKey("guides.material", "Guides", "words", 4),
];
