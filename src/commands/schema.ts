import { join } from "node:path";
import { didYouMean } from "../diagnostics/did-you-mean.ts";
import type { Environment, ExitCode } from "./environment.ts";
import { UsageError } from "./usage-error.ts";

const NAMES = ["job", "shop", "template", "figures"];

/** Prints the JSON Schema of a file that is typed, or of the figures. */
export function schema(name: string, world: Environment): ExitCode {
  if (!NAMES.includes(name)) {
    const near = didYouMean(name, NAMES);
    throw new UsageError(
      `there is no schema \`${name}\`: ${near ? `did you mean \`${near}\`?` : `there are ${NAMES.join(", ")}`}`,
    );
  }
  world.out(world.io.readTextFile(join(world.home, "schemas", `${name}.schema.json`)));
  return 0;
}
