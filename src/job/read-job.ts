import { hasError } from "../diagnostics/build.ts";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { sortDiagnostics } from "../diagnostics/sort.ts";
import { parseYaml } from "../parse/yaml/parse-yaml.ts";
import type { SourceDocument } from "../parse/yaml/source-document.ts";
import { declaredUnits } from "./declared-units.ts";
import { inheritStages } from "./inherit.ts";
import type { RunInJob } from "./readings/run-in-job.ts";
import { type RunTable, readInlineTables, runsOf } from "./readings/run-tables.ts";
import { portsOf } from "./rules/each-port.ts";
import { JOB_RULES } from "./rules/job-rules.ts";
import { liftUnits } from "./rules/lift-units.ts";
import type { Job, JobBench } from "./schema/job.ts";
import type { DeclaredUnits } from "./schema/quantities.ts";
import { parseJob, sharedJobSchema } from "./validate/parse-job.ts";
import { missing, type SchemaError } from "./validate/schema-errors.ts";
import { validateDocument } from "./validate/validate-document.ts";

/** A job file as read. `job` is there only when nothing in the file is wrong. */
export type ReadJob = {
  readonly job?: Job;
  /** What is sound of a job with faults, so that what it names can be checked in the same go. */
  readonly sound?: Job;
  readonly located?: SourceDocument;
  /** What bare numbers took: the job's `units` over the shop's. */
  readonly units: DeclaredUnits;
  /** Every sweep; those that stand in the job itself also as tables. */
  readonly runs: readonly RunInJob[];
  readonly tables: readonly RunTable[];
  readonly diagnostics: readonly Diagnostic[];
};

/** What a job takes from its shop. */
export type ShopOfJob = { readonly units?: DeclaredUnits; readonly bench?: JobBench };

/** Reads and checks the text of one job, a customer's or a product. Pure: `file` only names it. */
export function readJob(file: string, text: string, shop: ShopOfJob = {}): ReadJob {
  const { document, diagnostics: read } = parseYaml(file, text);
  if (!document) return { units: shop.units ?? {}, runs: [], tables: [], diagnostics: read };
  const units = declaredUnits(document.value, shop.units);
  const {
    value,
    sound,
    diagnostics: refused,
  } = validateDocument(sharedJobSchema(), document, missingForItsKind(document), (typed) => parseJob(typed, units));
  const ruled: Diagnostic[] = [];
  const inherited = inheritStages(sound?.stages ?? []);
  const ports = portsOf(sound?.stages ?? [], inherited);
  const inHand = sound && { job: sound, located: document, units, shopBench: shop.bench, inherited, ports };
  if (inHand) for (const rule of JOB_RULES) ruled.push(...rule(inHand));
  const runs = sound ? runsOf(sound, shop.bench) : [];
  const inline = readInlineTables(runs, document, units);
  const odd = sound ? liftUnits(inherited, inline.tables) : [];
  const diagnostics = sortDiagnostics([...read, ...refused, ...ruled, ...inline.diagnostics, ...odd]);
  const bad = hasError(diagnostics);
  return {
    job: bad ? undefined : value,
    sound,
    located: document,
    units,
    runs,
    tables: inline.tables,
    diagnostics,
  };
}

/** What a customer's job needs and a product does not; which of the two it is, the schema cannot say. */
function missingForItsKind({ value }: SourceDocument): SchemaError[] {
  const has = (key: string) => typeof value === "object" && key in value;
  if (has("product")) return [];
  const head = typeof value === "object" && "head" in value ? value.head : undefined;
  const named = typeof head === "object" && "name" in head;
  return [
    ...(has("job") ? [] : [missing(["job"])]),
    ...(has("customer") ? [] : [missing(["customer"])]),
    ...(has("head") || has("heads") ? [] : [missing(["head"])]),
    ...(typeof head === "object" && !named && !has("heads") ? [missing(["head", "name"])] : []),
    ...(has("stages") ? [] : [missing(["stages"])]),
  ];
}
