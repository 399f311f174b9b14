import type { z } from "zod";
import type { Plain } from "../source/located.ts";

/** What a schema makes of a value that it accepts; of one that it refuses, nothing: why, the schema itself says. */
type Reading = (value: Plain) => unknown;

/** No value that a schema could make. */
const REFUSED = Symbol("refused");

/**
 * Reads a sound value by its schema, with the same result as the schema's own `safeParse` and at a fraction of its work: a
 * job has a few dozen of the hundreds of keys that it may have, and only those are looked at. What the schema holds that is
 * not known here is left to the schema's own parse.
 *
 * @returns the value; undefined where the schema refuses it, or puts in what is missing
 */
export function soundValue<T>(schema: z.ZodType<T>): (value: Plain) => T | undefined {
  const read = readingOf(schema);
  return (value) => {
    const result = read(value);
    return result === REFUSED ? undefined : (result as T);
  };
}

/** Made when it is first needed: a job needs few of them. */
function readingOf(schema: z.core.$ZodType): Reading {
  let made: Reading | undefined;
  return (value) => {
    made ??= make(schema as z.core.$ZodTypes);
    return made(value);
  };
}

function make(schema: z.core.$ZodTypes): Reading {
  const { def } = schema._zod;
  switch (def.type) {
    case "optional":
      // Asked of what is there only.
      return readingOf(def.innerType);
    case "string":
      return isPlainly(def) ? (value) => (typeof value === "string" ? value : REFUSED) : bySchema(schema);
    case "number":
    case "boolean":
      // Scalars reach us as text: such a form is for editors.
      return isPlainly(def) ? () => REFUSED : bySchema(schema);
    case "enum":
      return ofEnum(def);
    case "union":
      return isPlainly(def) ? firstOf(def.options.map(readingOf)) : bySchema(schema);
    case "pipe":
      return isPlainly(def) ? inTurn(readingOf(def.in), readingOf(def.out)) : bySchema(schema);
    case "transform":
      return isPlainly(def) ? ofTransform(def) : bySchema(schema);
    case "array":
      return ofArray(schema, def);
    case "record":
      return isPlainly(def) && def.keyType._zod.def.type === "string" && isPlainly(def.keyType._zod.def)
        ? ofRecord(readingOf(def.valueType))
        : bySchema(schema);
    case "object":
      return isPlainly(def) ? ofObject(def) : bySchema(schema);
    default:
      return bySchema(schema);
  }
}

/** Whether a schema says no more than its type: no limits, no format. */
const isPlainly = (def: z.core.$ZodTypeDef & { format?: unknown; coerce?: unknown }) =>
  !def.checks?.length && def.format === undefined && def.coerce === undefined;

function bySchema(schema: z.core.$ZodType): Reading {
  return (value) => {
    const result = schema._zod.run({ value, issues: [] }, { async: false });
    if (result instanceof Promise || result.issues.length > 0) return REFUSED;
    return result.value;
  };
}

function ofEnum({ entries }: z.core.$ZodEnumDef): Reading {
  const words = new Set<unknown>(Object.values(entries));
  return (value) => (words.has(value) ? value : REFUSED);
}

function firstOf(forms: readonly Reading[]): Reading {
  return (value) => {
    for (const form of forms) {
      const result = form(value);
      if (result !== REFUSED) return result;
    }
    return REFUSED;
  };
}

function inTurn(first: Reading, then: Reading): Reading {
  return (value) => {
    const result = first(value);
    return result === REFUSED ? REFUSED : then(result as Plain);
  };
}

/** A transform finds fault by adding issues to what it is handed; which ones, zod asks again. */
function ofTransform({ transform }: z.core.$ZodTransformDef): Reading {
  return (value) => {
    const handed = { value, issues: [], addIssue } satisfies Handed;
    const result = transform(value, handed);
    return handed.issues.length > 0 || result instanceof Promise ? REFUSED : result;
  };
}

type Handed = z.core.ParsePayload & { readonly addIssue: (issue: never) => void };

function addIssue(this: Handed, issue: never) {
  this.issues.push(issue);
}

function ofArray(schema: z.core.$ZodTypes, def: z.core.$ZodArrayDef): Reading {
  const limits = (def.checks ?? []).map((check) => check._zod.def as z.core.$ZodCheckMinLengthDef);
  if (limits.some(({ check }) => check !== "min_length")) return bySchema(schema);
  const least = Math.max(0, ...limits.map(({ minimum }) => minimum));
  const element = readingOf(def.element);
  return (value) => {
    if (!Array.isArray(value) || value.length < least) return REFUSED;
    const read: unknown[] = [];
    for (const one of value) {
      const result = element(one);
      if (result === REFUSED) return REFUSED;
      read.push(result);
    }
    return read;
  };
}

const isMap = (value: Plain): value is { readonly [key: string]: Plain } =>
  typeof value === "object" && !Array.isArray(value);

function ofRecord(inner: Reading): Reading {
  return (value) => {
    if (!isMap(value)) return REFUSED;
    const read: Record<string, unknown> = {};
    for (const key of Object.keys(value)) {
      const result = key === "__proto__" ? REFUSED : inner(value[key] as Plain);
      if (result === REFUSED) return REFUSED;
      read[key] = result;
    }
    return read;
  };
}

function ofObject({ shape, catchall }: z.core.$ZodObjectDef): Reading {
  const keys = Object.keys(shape);
  const readings = keys.map((key) => readingOf(shape[key] as z.core.$ZodType));
  // Where something is put in for a key that is missing, zod puts it in.
  const needed = keys.map((key) => (shape[key] as z.core.$ZodType)._zod.optin !== "optional");
  const known = new Set(keys);
  const other = catchall && catchall._zod.def.type !== "never" ? readingOf(catchall) : () => REFUSED;
  return (value) => {
    if (!isMap(value)) return REFUSED;
    const read: Record<string, unknown> = {};
    let found = 0;
    // In the schema's order, as zod has it.
    for (let index = 0; index < keys.length; index++) {
      const key = keys[index] as string;
      const inner = value[key];
      if (inner === undefined) {
        if (needed[index]) return REFUSED;
        continue;
      }
      const result = (readings[index] as Reading)(inner);
      if (result === REFUSED) return REFUSED;
      read[key] = result;
      found++;
    }
    const typed = Object.keys(value);
    if (typed.length === found) return read;
    for (const key of typed) {
      if (known.has(key)) continue;
      const result = key === "__proto__" ? REFUSED : other(value[key] as Plain);
      if (result === REFUSED) return REFUSED;
      read[key] = result;
    }
    return read;
  };
}
