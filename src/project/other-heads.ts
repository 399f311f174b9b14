import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { didYouMean } from "../diagnostics/did-you-mean.ts";
import { DEFAULTS } from "../job/defaults.ts";
import type { ComparedStage, StageOnFile } from "../job/loaded-job.ts";
import type { Job } from "../job/schema/job.ts";
import { valueAt } from "../job/validate/schema-errors.ts";
import type { Path } from "../parse/yaml/source-document.ts";
import { readConfined } from "./confine.ts";
import { FILE_LIMITS } from "./limits.ts";
import { textOf } from "./load-file.ts";
import { type LoadContext, loadJob } from "./load-job.ts";
import type { InHand } from "./pictures.ts";

type Named = { readonly job: string; readonly stage?: string };
type Found = { readonly stage: StageOnFile } | { readonly fault: Diagnostic };

/** The other heads that a job names: to compare with, or for a product the samples it is compiled from. */
export function otherHeads(inHand: InHand, book: LoadContext) {
  const diagnostics: Diagnostic[] = [];
  const compared: ComparedStage[] = [];
  const samples: StageOnFile[] = [];
  (inHand.job.compare ?? []).forEach((named, index) => {
    const found = findHead(named, ["compare", index], "compare", inHand, book);
    if ("fault" in found) diagnostics.push(found.fault);
    else
      compared.push({ ...found.stage, label: named.label ?? found.stage.from.job.head?.name ?? `head ${index + 1}` });
  });
  const taken = new Set<string>();
  (inHand.job.samples ?? []).forEach((sample, index) => {
    const named = typeof sample === "string" ? { job: sample } : sample;
    const found = findHead(named, ["samples", index], "samples", inHand, book);
    if ("fault" in found) {
      diagnostics.push(found.fault);
      return;
    }
    const key = found.stage.from.file;
    const at = inHand.located.span(["samples", index]);
    if (taken.has(key))
      diagnostics.push({
        severity: "error",
        code: "project/sample-twice",
        message: `\`${named.job}\` is named twice`,
        at,
        hint: "a head counts once",
      });
    taken.add(key);
    samples.push(found.stage);
  });
  return { compared, samples, diagnostics };
}

function findHead(
  named: Named,
  path: Path,
  use: "compare" | "samples",
  { located, path: from, root }: InHand,
  book: LoadContext,
): Found {
  const jobPath = typeof valueAt(located.value, path) === "string" ? path : [...path, "job"];
  const at = located.span(jobPath);
  const refuse = (code: Diagnostic["code"], message: string, hint: string, place = at): Found => ({
    fault: { severity: "error", code, message, at: place, hint },
  });
  const found = readConfined(
    { typed: named.job, from, root, at, what: "job file", largest: FILE_LIMITS.yaml },
    book.io,
  );
  if ("fault" in found) return found;
  if (book.io.realPath(found.path) === book.io.realPath(from))
    return refuse(
      "project/names-itself",
      "a job cannot name itself",
      use === "compare" ? "its own stages are compared anyway" : "name the heads that were measured",
    );

  const { onFile, read, diagnostics } = loadJob(found.path, textOf(found.bytes), book);
  if (!onFile) {
    const errors = diagnostics.filter((each) => each.severity === "error");
    const message = `\`${named.job}\` has ${errors.length === 1 ? "a fault" : `${errors.length} faults`} of its own`;
    return refuse(
      "project/other-job-refused",
      message,
      `the first: ${errors[0]?.message ?? "it cannot be read"}; check that job first`,
    );
  }
  if (read.job?.product !== undefined)
    return refuse(
      "project/other-is-product",
      `\`${named.job}\` is a product, not a measured head`,
      "name the job of a head",
    );
  const allowed = onFile.job.may_compare ?? DEFAULTS.mayCompare;
  if (allowed === "no" || (use === "compare" && allowed !== "yes"))
    return refuse(
      "project/may-not-compare",
      `\`${named.job}\` may not be drawn by other jobs: may_compare is \`${allowed}\``,
      "if its owner agrees, write `may_compare: yes` in that job",
    );

  const stages = onFile.job.stages ?? [];
  const stage = named.stage === undefined ? lastOfItsOwn(onFile) : stages.findIndex((one) => one.name === named.stage);
  if (stage >= 0) return { stage: { from: onFile, stage } };
  const names = stages.map((one) => one.name);
  const near = named.stage === undefined ? undefined : didYouMean(named.stage, names);
  const hint = near === undefined ? `its stages are ${names.join(", ")}` : `did you mean \`${near}\`?`;
  return refuse(
    "project/stage-missing",
    `\`${named.job}\` has no stage \`${named.stage ?? ""}\``,
    hint,
    located.span([...path, "stage"]),
  );
}

/** The last stage that repeats no other: how the head left the shop. */
const lastOfItsOwn = ({ job }: { readonly job: Job }): number =>
  (job.stages ?? []).findLastIndex((stage) => stage.repeats === undefined);
