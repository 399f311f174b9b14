import type { Diagnostic, Span } from "../diagnostics/diagnostic.ts";
import { didYouMean } from "../diagnostics/did-you-mean.ts";
import { DEFAULTS } from "../job/defaults.ts";
import type { ComparedStage, LoadedJob, StageOnFile } from "../job/loaded-job.ts";
import type { Job } from "../job/schema/job.ts";
import { type Path, valueAt } from "../parse/yaml/source-document.ts";
import { readConfined } from "./confine.ts";
import { FILE_LIMITS } from "./limits.ts";
import { decodeText } from "./load-file.ts";
import { type LoadContext, loadJob } from "./load-job.ts";
import type { ParsedJob } from "./pictures.ts";

type HeadReference = { readonly job: string; readonly stage?: string; readonly label?: string };
type Use = "compare" | "samples" | "heads_of";
type HeadSearch = { readonly stage: StageOnFile } | { readonly fault: Diagnostic };

/** Loads the other heads that a job names: heads to compare with, or the samples of a product. */
export function loadOtherHeads(parsed: ParsedJob, context: LoadContext) {
  const diagnostics: Diagnostic[] = [];
  const compared: ComparedStage[] = [];
  const samples: StageOnFile[] = [];
  const taken = new Set<string>();
  const takeOnce = (key: string, path: Path, code: Diagnostic["code"], message: string, hint: string) => {
    if (taken.has(`${code} ${key}`)) diagnostics.push(refuse(parsed.located.span(path), code, message, hint).fault);
    taken.add(`${code} ${key}`);
  };
  const use = parsed.job.heads_of ? "heads_of" : "compare";
  (parsed.job[use] ?? []).forEach((typed, index) => {
    const reference = typeof typed === "string" ? { job: typed } : typed;
    const path = [use, index];
    const found = findHead(reference, path, use, parsed, context);
    if ("fault" in found) {
      diagnostics.push(found.fault);
      return;
    }
    const label = reference.label ?? found.stage.from.job.head?.name ?? `head ${index + 1}`;
    const message = `two heads are called \`${label}\``;
    takeOnce(label, [...path, "label"], "project/label-twice", message, "give each head a `label`");
    const same = use === "heads_of" && isSameCustomer(parsed.job, found.stage.from.job);
    compared.push({ ...found.stage, label, ...(same ? { sameCustomer: true } : {}) });
  });
  (parsed.job.samples ?? []).forEach((sample, index) => {
    const reference = typeof sample === "string" ? { job: sample } : sample;
    const path = ["samples", index];
    const found = findHead(reference, path, "samples", parsed, context);
    if ("fault" in found) {
      diagnostics.push(found.fault);
      return;
    }
    const message = `\`${reference.job}\` is named twice`;
    takeOnce(found.stage.from.file, path, "project/sample-twice", message, "a head counts once");
    samples.push(found.stage);
  });
  return { compared, samples, diagnostics };
}

function findHead(
  reference: HeadReference,
  path: Path,
  use: Use,
  { job: own, located, path: from, root }: ParsedJob,
  context: LoadContext,
): HeadSearch {
  const jobPath = typeof valueAt(located.value, path) === "string" ? path : [...path, "job"];
  const at = located.span(jobPath);
  const found = readConfined(
    { typed: reference.job, from, root, at, what: "job file", largest: FILE_LIMITS.yaml },
    context.io,
  );
  if ("fault" in found) return found;
  if (context.io.realPath(found.path) === context.io.realPath(from))
    return refuse(
      at,
      "project/names-itself",
      "a job cannot name itself",
      use === "compare" ? "its own stages are compared anyway" : "name the heads that were measured",
    );
  const { loaded, diagnostics } = loadJob(found.path, decodeText(found.bytes), context);
  if (loaded)
    return (
      checkPermission(reference, loaded, use, own, at) ?? findStage(reference, loaded, located.span([...path, "stage"]))
    );
  const errors = diagnostics.filter((each) => each.severity === "error");
  return refuse(
    at,
    "project/other-job-refused",
    `\`${reference.job}\` has ${errors.length === 1 ? "a fault" : `${errors.length} faults`} of its own`,
    `the first: ${errors[0]?.message ?? "it cannot be read"}; check that job first`,
  );
}

const refuse = (at: Span, code: Diagnostic["code"], message: string, hint: string) => ({
  fault: { severity: "error" as const, code, message, at, hint },
});

/** Whether two jobs name one customer, whatever the case and blanks. */
function isSameCustomer(a: Job, b: Job): boolean {
  const [one, other] = [a, b].map(({ customer }) => customer?.name.trim().replace(/\s+/g, " ").toLowerCase());
  return one !== undefined && one === other;
}

/** Refuses a product, and a job whose `may_compare` does not allow this use; a customer's own heads may stand side by side for him. */
function checkPermission(reference: HeadReference, { job }: LoadedJob, use: Use, own: Job, at: Span) {
  if (job.product !== undefined)
    return refuse(
      at,
      "project/other-is-product",
      `\`${reference.job}\` is a product, not a measured head`,
      "name the job of a head",
    );
  const allowed = job.may_compare ?? DEFAULTS.mayCompare;
  if (allowed === "yes" || (use === "samples" && allowed !== "no")) return undefined;
  if (use === "heads_of" && isSameCustomer(own, job)) return undefined;
  return refuse(
    at,
    "project/may-not-compare",
    `\`${reference.job}\` may not be drawn by other jobs: may_compare is \`${allowed}\``,
    "if its owner agrees, write `may_compare: yes` in that job",
  );
}

/** The named stage; without a name, the last that repeats no other: how the head left the shop. */
function findStage(reference: HeadReference, from: LoadedJob, at: Span): HeadSearch {
  const stages = from.job.stages ?? [];
  const stage =
    reference.stage === undefined
      ? stages.findLastIndex(({ repeats }) => repeats === undefined)
      : stages.findIndex(({ name }) => name === reference.stage);
  if (stage >= 0) return { stage: { from, stage } };
  const names = stages.map(({ name }) => name);
  const near = reference.stage === undefined ? undefined : didYouMean(reference.stage, names);
  const hint = near === undefined ? `its stages are ${names.join(", ")}` : `did you mean \`${near}\`?`;
  return refuse(at, "project/stage-missing", `\`${reference.job}\` has no stage \`${reference.stage ?? ""}\``, hint);
}
