import type { JobWithHeads } from "../../job/loaded-job.ts";
import { mergeBench } from "../../job/merge-bench.ts";
import type { Metres } from "../../units/quantity.ts";
import { unitSymbol } from "../../units/show.ts";
import { isMap } from "../../util/is-map.ts";
import type { Model } from "../model.ts";
import type { Form, FormEntry } from "./form.ts";
import { FORM_KEYS, type FormKey } from "./form-keys.ts";
import { formLifts } from "./form-lifts.ts";

/** What the form is for, beside its job. */
export type FormAsked = {
  /** One of the job's stages, or a new one; none said: the first without readings, else one to be named. */
  readonly stage?: string;
  readonly cylinder?: number;
  readonly lifts?: readonly Metres[];
};

/** Everything on a job's bench form: what the job says is stated, the rest is left blank. */
export function buildForm(project: JobWithHeads, model: Model, asked: FormAsked): Form {
  const { job, shop, units } = project;
  const at = (job.stages ?? []).findIndex(({ name, flow, runs }) =>
    asked.stage === undefined ? flow === undefined && runs === undefined : same(name, asked.stage),
  );
  const typed = job.stages?.[at];
  const bench = mergeBench(shop?.bench, job.bench, typed?.bench);
  const values: Facts = {
    ...job,
    head: { ...job.head, ...pair(project, model) },
    stages: { name: asked.stage, ...typed, runs: { cylinder: asked.cylinder } },
    // Written by hand; what the job has is on its sheet.
    work: undefined,
    remarks: undefined,
  };
  const standing: Facts = { stages: { bench } };
  return {
    entries: FORM_KEYS.map((key) => {
      const made = entry(key, valueAt(key.standing ? standing : values, key.path));
      return key.path === "stages.runs.cylinder" ? { ...made, label: made.label + ofHowMany(model) } : made;
    }),
    lifts:
      asked.lifts === undefined ? formLifts(model, model.stages[at]) : { at: asked.lifts, from: { kind: "asked" } },
    reads: bench.reads ?? "flow",
    spelledOut: kinds.filter((kind) => {
      const declared = kind in units ? units[kind as keyof typeof units] : undefined;
      const shown = model.units[kind as keyof Model["units"]];
      return declared === undefined || unitSymbol(kind, declared) !== unitSymbol(kind, shown);
    }),
  };
}

const kinds = ["length", "area", "volume", "flow", "pressure", "temperature"] as const;

/** Which cylinders there are, where the job says so. */
const ofHowMany = ({ engine }: Model) => ((engine?.cylinders ?? 1) > 1 ? `, of ${engine!.cylinders}` : "");

type Facts = { readonly [key: string]: unknown };

const same = (a: string, b: string) => a.trim().toLowerCase() === b.trim().toLowerCase();

/** Of a pair, both: what each is stamped stands behind its id. */
function pair({ job: { head, heads = [] } }: JobWithHeads, model: Model): Facts {
  if (heads.length === 0) return {};
  const each = (field: "stamped" | "casting") =>
    heads.flatMap((one) => (one[field] === undefined ? [] : [`${one.id} ${one[field]}`])).join(", ") || head?.[field];
  return { name: model.identity.title, stamped: each("stamped"), casting: each("casting") };
}

const valueAt = (facts: Facts, path: string): unknown =>
  path.split(".").reduce<unknown>((value, name) => (isMap(value) ? value[name] : undefined), facts);

function entry(key: FormKey, value: unknown): FormEntry {
  if (typeof value === "string" || typeof value === "number") {
    // A pinch given by its area alone.
    const kind = typeof value === "number" && key.path.endsWith(".pinch") ? "area" : key.kind;
    return key.kind === "words" || typeof value === "string"
      ? { ...key, stated: String(value) }
      : { ...key, kind, stated: [value] };
  }
  const sizes = numbers(value);
  return sizes.length > 0 ? { ...key, ...(isArea(value) ? { kind: "area" } : {}), stated: sizes } : key;
}

const isArea = (value: unknown) => isMap(value) && value.area !== undefined;

/** The sizes of a valve, several valves, a pinch or a pipe. */
function numbers(value: unknown): readonly number[] {
  if (typeof value === "number") return [value];
  if (Array.isArray(value)) return value.flatMap(numbers);
  if (!isMap(value)) return [];
  const { head, area, width, height, diameter, length } = value;
  return [head, area, width, height, diameter, length].flatMap((one) => (typeof one === "number" ? [one] : []));
}
