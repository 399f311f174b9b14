import { jobSchema } from "./job.ts";
import type { DeclaredUnits } from "./quantities.ts";

type JobSchema = ReturnType<typeof jobSchema>;

/** Building the schema takes longer than reading a job with it; a shop's jobs share their units. */
const built = new Map<string, JobSchema>();

/** The schema of a job whose bare numbers take these units. */
export function jobSchemaFor(units: DeclaredUnits): JobSchema {
  const key = JSON.stringify(Object.entries(units).toSorted(([a], [b]) => (a < b ? -1 : 1)));
  const schema = built.get(key) ?? jobSchema(units);
  built.set(key, schema);
  return schema;
}
