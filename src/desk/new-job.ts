import { basename, dirname, relative, resolve, sep } from "node:path";
import { createFile } from "../io/create-file.ts";
import { starterJob, starterProduct } from "../job/starter.ts";
import { shortest } from "./find-jobs.ts";
import type { ExitCode, World } from "./world.ts";
import { WrongUse } from "./wrong-use.ts";

/** Writes a commented starter job, dated today and numbered after its file; never over a file that is there. */
export function newJob(file: string, options: { readonly product: boolean }, world: World): ExitCode {
  const path = resolve(world.cwd, file);
  if (!/\.ya?ml$/i.test(path)) throw new WrongUse(`a job file ends in .yaml: \`${file}\``);
  const schema = relative(dirname(path), resolve(world.home, "schemas", "job.schema.json"))
    .split(sep)
    .join("/");
  const facts = { number: basename(path).replace(/\.ya?ml$/i, ""), issued: world.today, schema };
  const text = (options.product ? starterProduct : starterJob)(facts);
  if (!createFile(path, text)) throw new WrongUse(`\`${file}\` is there already: nothing was written`);
  world.out(`${shortest(world.cwd, path)}\n`);
  return 0;
}
