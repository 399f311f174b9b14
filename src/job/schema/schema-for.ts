import type { Schema } from "../read-validated.ts";
import { soundValue } from "../sound-value.ts";
import { type Job, jobSchema } from "./job.ts";
import type { Declared, DeclaredUnits } from "./quantities.ts";

/**
 * The schema of jobs whose bare numbers take these units. It is one for all: building it takes far longer than reading a
 * job with it, and it is large. What the units are is set just before it reads.
 */
export const jobSchemaFor: (units: DeclaredUnits) => Schema<Job> = oneForAll();

function oneForAll(): typeof jobSchemaFor {
  const declared: { -readonly [K in keyof Declared]: Declared[K] } = { units: {} };
  let made:
    | { readonly schema: ReturnType<typeof jobSchema>; readonly sound: ReturnType<typeof soundValue<Job>> }
    | undefined;
  return (units) => {
    if (!made) {
      const schema = jobSchema(declared);
      made = { schema, sound: soundValue(schema) };
    }
    const { schema, sound } = made;
    const safeParse: Schema<Job>["safeParse"] = (value, params) => {
      declared.units = units;
      const data = sound(value);
      return data === undefined ? schema.safeParse(value, params) : { success: true, data };
    };
    return { schema, safeParse };
  };
}
