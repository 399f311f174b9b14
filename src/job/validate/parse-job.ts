import type { z } from "zod";
import type { YamlValue } from "../../parse/yaml/source-document.ts";
import { type Job, jobSchema } from "../schema/job.ts";
import type { DeclaredUnits } from "../schema/quantities.ts";
import { PARSE_OPTIONS } from "./schema-errors.ts";

/** Units of the parse that is running. The schema reads them through this object, for building one takes far longer than parsing a job. */
const declared: { units: DeclaredUnits } = { units: {} };

let built: z.ZodType<Job> | undefined;

/** The schema of jobs, built on first use. */
export const sharedJobSchema = (): z.ZodType<Job> => {
  built ??= jobSchema(declared);
  return built;
};

/** Parses a job whose bare numbers take these units. */
export function parseJob(value: YamlValue, units: DeclaredUnits): z.ZodSafeParseResult<Job> {
  declared.units = units;
  try {
    return sharedJobSchema().safeParse(value, PARSE_OPTIONS);
  } finally {
    declared.units = {};
  }
}
