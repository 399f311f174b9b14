import { join } from "node:path";
import { didYouMean } from "../diagnostics/did-you-mean.ts";
import type { Environment, ExitCode } from "./environment.ts";
import { UsageError } from "./environment.ts";

const SCHEMA_NAMES = ["job", "shop", "template", "figures"];

/** Prints the JSON Schema of a kind of input file, or of the figures. */
export function printSchema(name: string, environment: Environment): ExitCode {
  if (!SCHEMA_NAMES.includes(name)) {
    const near = didYouMean(name, SCHEMA_NAMES);
    throw new UsageError(
      `there is no schema \`${name}\`: ${near ? `did you mean \`${near}\`?` : `there are ${SCHEMA_NAMES.join(", ")}`}`,
    );
  }
  environment.out(environment.io.readTextFile(join(environment.home, "schemas", `${name}.schema.json`)));
  return 0;
}
