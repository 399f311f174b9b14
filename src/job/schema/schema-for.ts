import { remembered } from "../remembered.ts";
import { jobSchema } from "./job.ts";
import type { DeclaredUnits } from "./quantities.ts";

/** Each takes two megabytes. A shop's jobs share their units, or nearly. */
const MOST = 8;

/** Building the schema takes longer than reading a job with it. */
const built = remembered((units: string) => jobSchema(Object.fromEntries(JSON.parse(units)) as DeclaredUnits), MOST);

/** The schema of a job whose bare numbers take these units. */
export const jobSchemaFor = (units: DeclaredUnits): ReturnType<typeof jobSchema> =>
  built(JSON.stringify(Object.entries(units).toSorted(([a], [b]) => (a < b ? -1 : 1))));
