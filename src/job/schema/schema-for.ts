import { z } from "zod";
import type { Schema } from "../read-validated.ts";
import { type Job, jobSchema } from "./job.ts";
import type { Declared, DeclaredUnits } from "./quantities.ts";

/** Compiling takes as long as reading about so many jobs without it: a shelf is worth it, the batch of a day is not. */
const WORTH_COMPILING = 100;

/**
 * The schema of jobs whose bare numbers take these units. It is one for all: building it takes far longer than reading a
 * job with it, and it is large. What the units are is set just before it reads.
 */
export const jobSchemaFor: (units: DeclaredUnits) => Schema<Job> = oneForAll();

function oneForAll(): typeof jobSchemaFor {
  const declared: { -readonly [K in keyof Declared]: Declared[K] } = { units: {} };
  let schema: ReturnType<typeof jobSchema> | undefined;
  let asked = 0;
  return (units) => {
    schema ??= jobSchema(declared);
    if (++asked === WORTH_COMPILING) schema = z.compile(schema);
    const held = schema;
    const safeParse: Schema<Job>["safeParse"] = (value, params) => {
      declared.units = units;
      return held.safeParse(value, params);
    };
    return { schema: held, safeParse };
  };
}
