import { hasError, sortDiagnostics } from "../diagnostics/build.ts";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { parseYaml } from "../parse/yaml/parse-yaml.ts";
import type { SourceDocument } from "../parse/yaml/source-document.ts";
import { inheritStages } from "./inherit.ts";
import { mergeMissingUnits } from "./missing-units.ts";
import { type RunInJob, type RunTable, readInlineTables, runsOf } from "./readings/run-tables.ts";
import { JOB_RULES } from "./rules/job-rules.ts";
import { lifts } from "./rules/lifts.ts";
import { portsOf } from "./rules/rule.ts";
import { type Job, type JobBench, jobSchema } from "./schema/job.ts";
import type { DeclaredUnits } from "./schema/quantities.ts";
import { declaredUnits } from "./schema/units.ts";
import { missing, type SchemaError } from "./validate/schema-errors.ts";
import { validateDocument } from "./validate/validate-document.ts";

/** A parsed and validated job file; `job` is there only without errors. */
export type ReadJob = {
  readonly job?: Job;
  /** The valid part of a job with errors, so that the files it names can be checked in the same run. */
  readonly sound?: Job;
  readonly located?: SourceDocument;
  /** The units of bare numbers: the job's `units` over the shop's. */
  readonly units: DeclaredUnits;
  /** Every sweep; those typed in the job itself also as tables. */
  readonly runs: readonly RunInJob[];
  readonly tables: readonly RunTable[];
  readonly diagnostics: readonly Diagnostic[];
};

/** The defaults that a job takes from its shop. */
type ShopOfJob = { readonly units?: DeclaredUnits; readonly bench?: JobBench };

/** Parses and validates the text of one job, a customer's or a product. Pure: `file` is only its name in messages. */
export function readJob(file: string, text: string, shop: ShopOfJob = {}): ReadJob {
  const { document, diagnostics: read } = parseYaml(file, text);
  if (!document) return { units: shop.units ?? {}, runs: [], tables: [], diagnostics: read };
  const units = declaredUnits(document.value, shop.units);
  const { value, sound, diagnostics: refused } = validateDocument(jobSchema(), document, units, missingKeys(document));
  const ruled: Diagnostic[] = [];
  const inherited = inheritStages(sound?.stages ?? []);
  const ports = portsOf(sound?.stages ?? [], inherited);
  const input = sound && { job: sound, located: document, units, shopBench: shop.bench, inherited, ports };
  if (input) for (const rule of JOB_RULES) ruled.push(...rule(input));
  const runs = sound ? runsOf(sound, shop.bench) : [];
  const inline = readInlineTables(runs, document, units);
  const unlikely = sound ? lifts(inherited, inline.tables) : [];
  const found = sortDiagnostics([...read, ...refused, ...ruled, ...inline.diagnostics, ...unlikely]);
  const diagnostics = mergeMissingUnits(found, units);
  const invalid = hasError(diagnostics);
  return {
    job: invalid ? undefined : value,
    sound,
    located: document,
    units,
    runs,
    tables: inline.tables,
    diagnostics,
  };
}

/** The keys that a customer's job needs and a product does not: the schema serves both kinds and cannot require them. */
function missingKeys({ value }: SourceDocument): SchemaError[] {
  const has = (key: string) => typeof value === "object" && key in value;
  if (has("product")) return [];
  const head = typeof value === "object" && "head" in value ? value.head : undefined;
  const named = typeof head === "object" && "name" in head;
  return [
    ...(has("job") ? [] : [missing(["job"])]),
    ...(has("customer") ? [] : [missing(["customer"])]),
    ...(has("head") || has("heads") ? [] : [missing(["head"])]),
    ...(typeof head === "object" && !named && !has("heads") ? [missing(["head", "name"])] : []),
    ...(has("stages") || has("heads_of") ? [] : [missing(["stages"])]),
  ];
}
