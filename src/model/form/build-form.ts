import type { JobWithHeads } from "../../job/loaded-job.ts";
import { mergeBench } from "../../job/merge-bench.ts";
import type { Metres } from "../../units/quantity.ts";
import { unitSymbol } from "../../units/show.ts";
import { isMap } from "../../util/is-map.ts";
import { type Model, SIDES } from "../model.ts";
import type { Form, FormEntry } from "./form.ts";
import { FORM_KEYS, type FormKey, SET_UP_KEYS } from "./form-keys.ts";
import { formLifts } from "./form-lifts.ts";

/** Options of a form. */
export type FormChoices = {
  /** A stage of the job, or a new one; default: the first without readings, else a blank name. */
  readonly stage?: string;
  readonly cylinder?: number;
  readonly lifts?: readonly Metres[];
};

/** Builds a job's bench form: values that the job states are filled in, the rest is blank. */
export function buildForm(project: JobWithHeads, model: Model, options: FormChoices): Form {
  const { job, shop, units } = project;
  const at = (job.stages ?? []).findIndex(({ name, flow, runs }) =>
    options.stage === undefined ? flow === undefined && runs === undefined : isSameName(name, options.stage),
  );
  const typed = job.stages?.[at];
  const bench = mergeBench(shop?.bench, job.bench, typed?.bench);
  const values: Facts = {
    ...job,
    head: { ...job.head, ...pairFacts(project, model) },
    stages: { name: options.stage, ...typed, runs: { cylinder: options.cylinder } },
    // Left blank for handwriting.
    work: undefined,
    not_done: undefined,
    remarks: undefined,
  };
  const standing: Facts = { stages: { bench } };
  return {
    entries: FORM_KEYS.map((key) => {
      const made = buildEntry(key, valueAt(key.standing ? standing : values, key.path));
      return key.path === "stages.runs.cylinder" ? { ...made, label: made.label + cylinderCountText(model) } : made;
    }),
    lifts:
      options.lifts === undefined ? formLifts(model, model.stages[at]) : { at: options.lifts, from: { kind: "asked" } },
    ...([job.sheet ?? []].flat().includes("set-up") ? { setUp: setUpPage(values, model) } : {}),
    reads: bench.reads ?? "flow",
    spelledOut: kinds.filter((kind) => {
      const declared = kind in units ? units[kind as keyof typeof units] : undefined;
      const shown = model.units[kind as keyof Model["units"]];
      return declared === undefined || unitSymbol(kind, declared) !== unitSymbol(kind, shown);
    }),
  };
}

function setUpPage(values: Facts, model: Model): NonNullable<Form["setUp"]> {
  const cylinders = model.engine?.cylinders ?? 1;
  const ports = model.stages.findLast(({ ports }) => ports.intake || ports.exhaust)?.ports ?? {};
  const valves = Array.from({ length: cylinders }, (_, i) =>
    SIDES.flatMap((side) => {
      const count = ports[side]?.valves.length ?? 1;
      const name = `${i + 1}${side === "intake" ? "I" : "E"}`;
      return Array.from({ length: count }, (_, n) => (count === 1 ? name : `${name}${"abcde"[n]}`));
    }),
  );
  const entries = SET_UP_KEYS.map((key) =>
    key.path.startsWith("stages.") ? key : buildEntry(key, valueAt(values, key.path)),
  );
  return { entries, valves: valves.flat() };
}

const kinds = ["length", "area", "volume", "flow", "pressure", "temperature"] as const;

/** ", of 4" when the job states the number of cylinders. */
const cylinderCountText = ({ engine }: Model) => ((engine?.cylinders ?? 1) > 1 ? `, of ${engine!.cylinders}` : "");

type Facts = { readonly [key: string]: unknown };

/** Whether two names of stages are one, as a form takes it. */
export const isSameName = (a: string, b: string) => a.trim().toLowerCase() === b.trim().toLowerCase();

/** Facts of a pair of heads, each stamp and casting after the id of its head. */
function pairFacts({ job: { head, heads = [] } }: JobWithHeads, model: Model): Facts {
  if (heads.length === 0) return {};
  const each = (field: "stamped" | "casting") =>
    heads.flatMap((one) => (one[field] === undefined ? [] : [`${one.id} ${one[field]}`])).join(", ") || head?.[field];
  return { name: model.identity.title, stamped: each("stamped"), casting: each("casting") };
}

const valueAt = (facts: Facts, path: string): unknown =>
  path.split(".").reduce<unknown>((value, name) => (isMap(value) ? value[name] : undefined), facts);

function buildEntry(key: FormKey, value: unknown): FormEntry {
  if (typeof value === "string" || typeof value === "number") {
    // A pinch stated as an area.
    const kind = typeof value === "number" && key.path.endsWith(".pinch") ? "area" : key.kind;
    return key.kind === "words" || typeof value === "string"
      ? { ...key, stated: String(value) }
      : { ...key, kind, stated: [value] };
  }
  const sizes = collectSizes(value);
  return sizes.length > 0 ? { ...key, ...(isArea(value) ? { kind: "area" } : {}), stated: sizes } : key;
}

const isArea = (value: unknown) => isMap(value) && value.area !== undefined;

/** The sizes of a valve, several valves, a pinch or a pipe. */
function collectSizes(value: unknown): readonly number[] {
  if (typeof value === "number") return [value];
  if (Array.isArray(value)) return value.flatMap(collectSizes);
  if (!isMap(value)) return [];
  const { head, area, width, height, diameter, length } = value;
  return [head, area, width, height, diameter, length].flatMap((one) => (typeof one === "number" ? [one] : []));
}
