import { dirname, relative, resolve } from "node:path";
import type { Job } from "../../job/schema/job.ts";
import { inlineYaml, type YamlMap } from "../../parse/yaml/stringify-yaml.ts";
import type { SoundEntry } from "./shelf-entry.ts";

/** The job that others are compared with: where it stands, what it may reach, what it compares already. */
export type Asking = { readonly path: string; readonly root: string; readonly job: Job };

/** The line to paste under `compare`, or why there is none. */
export type CompareLine = { readonly line: string } | { readonly why: string };

/** What `compare` would take of that head. `label` is what its sheet calls it: never a ticket or a customer. */
export function compareLine(
  entry: SoundEntry,
  folder: string,
  { path, root, job }: Asking,
  label: string,
): CompareLine {
  const there = resolve(folder, entry.file);
  const typed = relative(dirname(path), there).replaceAll("\\", "/");
  if (entry.kind === "product") return { why: "a product, not a measured head" };
  if (entry.may_compare !== "yes") return { why: `its may_compare is \`${entry.may_compare}\`` };
  if (relative(root, there).startsWith("..")) return { why: "outside the folder of this job's shop.yaml" };
  if (job.compare?.some((one) => resolve(dirname(path), one.job) === there)) return { why: "compared already" };
  const stage: YamlMap = entry.stage === undefined ? {} : { stage: entry.stage };
  return { line: `- ${inlineYaml({ job: typed, ...stage, label })}` };
}
