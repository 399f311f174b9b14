import { createHash } from "node:crypto";
import { DEFAULTS } from "../job/defaults.ts";
import { inheritStages } from "../job/inherit.ts";
import type { JobWithHeads, LoadedJob, StageOnFile } from "../job/loaded-job.ts";
import { mergeBench } from "../job/merge-bench.ts";
import type { ReadingsRow } from "../job/readings/readings-row.ts";
import type { RunInJob } from "../job/readings/run-tables.ts";
import { jobSchema } from "../job/schema/job.ts";
import { type KeyTree, keyAt, keyTree } from "../job/schema/keys.ts";
import { parseWithheld, type Withheld } from "../sheet/withheld.ts";
import { isMap } from "../util/is-map.ts";
import { omitUndefined } from "../util/omit-undefined.ts";
import { isKeyWithheld } from "./exported-keys.ts";
import { removeWithheld } from "./job-copy.ts";
import { isWithheld } from "./shown-figures.ts";

/** A job with its pictures. */
type MarkedJob = JobWithHeads & {
  readonly images: ReadonlyMap<string, Uint8Array>;
  readonly logo?: Uint8Array;
};

/** Letters of a mark: without digits, a spreadsheet takes it for no number or date. */
const LETTERS = "bcdfghjklmnpqrst";
/** Letters in a mark: two of a million issues are alike with a probability of 0.2 %. */
const LENGTH = 12;
export const MARK_PATTERN = `[${LETTERS}]{${LENGTH}}`;

/** Keys that reach no page, decide its look only, or whose content is hashed in another form. */
const UNHASHED_KEYS = ["internal", "may_compare", "draft", "revision", "sheet", "paper", "units"];
const REPLACED = ["stages", "bench", "report", "customer", "photos", "compare", "samples"];
const NOT_OF_SHOP = ["shop", "brand", "paper", "units", "bench", "report"];

/**
 * The mark of an issue: a hash of what was typed and reaches a page of any sheet, in SI and after inheritance. What the shop
 * withholds, its address and colours, and the program's own words and version do not enter it, so it reveals nothing.
 */
export function issueMark(project: MarkedJob): string {
  const hash = createHash("sha256")
    .update(serializeCanonically(markedContent(project)))
    .digest();
  return [...hash.subarray(0, LENGTH / 2)].map((byte) => `${LETTERS[byte >> 4]}${LETTERS[byte & 15]}`).join("");
}

function markedContent({ images, logo, ...project }: MarkedJob): unknown {
  const { job, shop, compared, samples } = project;
  const { embed: _, strict: __, ...report } = { ...shop?.report, ...omitUndefined(job.report ?? {}) };
  const withheld = withheldBy(project);
  const { work, assembly, also_measured, ...stated } = removeWithheld(job, withheld);
  const { phone, email, address, ...customer } = job.customer ?? {};
  const { warranty, cautions, responsible } = shop?.shop ?? {};
  const tree = Object.values(withheld).includes(true) ? keyTree(jobSchema()) : undefined;
  const inJob = tree && { keys: tree, withheld };
  return {
    ...omitKeys(shop ?? {}, NOT_OF_SHOP),
    ...(withoutWithheld(omitKeys(stated, [...UNHASHED_KEYS, ...REPLACED]), inJob) as object),
    job: job.job?.trim(),
    // The order of these maps is the order on the page.
    ordered: [work, assembly, ...(also_measured ?? [])].map((map) => Object.entries(map ?? {})),
    customer: { ...customer, contact: phone ?? email ?? address },
    report: withoutWithheld(report, inJob && { ...inJob, keys: keyAt(inJob.keys, ["report"])! }),
    stages: (job.stages ?? []).map((_, stage) => stageContent({ from: project, stage }, withheld, tree)),
    shop: { warranty, cautions, responsible, logo: logo && hashOf(logo) },
    photos: (job.photos ?? []).map(({ file, ...photo }) => ({ ...photo, bytes: hashOf(images.get(file)) })),
    cover: job.product?.photo && hashOf(images.get(job.product.photo)),
    compared: compared.map((one) => ({ label: one.label, ...contentOfOtherHead(one, withheld) })),
    samples: samples.map((one) => ({ ...contentOfOtherHead(one, withheld), springs: one.from.job.springs })),
  };
}

const withheldBy = ({ job, shop }: LoadedJob): Withheld =>
  parseWithheld(job.report?.hold_back ?? shop?.report?.hold_back ?? DEFAULTS.report.holdBack);

/** A stage of another head, without what either shop withholds of it. */
function contentOfOtherHead(one: StageOnFile, own: Withheld): object {
  const theirs = withheldBy(one.from);
  const withheld = {
    pinch: own.pinch || theirs.pinch,
    sections: own.sections || theirs.sections,
    seat: own.seat || theirs.seat,
    portVolume: own.portVolume || theirs.portVolume,
    names: own.names,
  };
  return { ...stageContent(one, withheld, keyTree(jobSchema())), by: undefined };
}

/** A stage with its dimensions after inheritance, the bench it was measured on, and its readings. */
function stageContent({ from, stage: index }: StageOnFile, withheld: Withheld, tree: KeyTree | undefined): object {
  const { job, shop } = from;
  const stage = job.stages![index]!;
  const { inherited, from: _, ...facts } = inheritStages(job.stages!)[index]!;
  const stated = { ...omitKeys(stage, ["flow", "runs", "bench"]), ...facts };
  return {
    ...(withoutWithheld(stated, tree && { keys: keyAt(tree, ["stages"])!, withheld }) as object),
    inherited: {
      intake: inherited.intake.filter((key) => !isWithheld(withheld, key)),
      exhaust: inherited.exhaust.filter((key) => !isWithheld(withheld, key)),
      chambers: inherited.chambers,
    },
    bench: mergeBench(shop?.bench, job.bench, stage.bench),
    runs: from.runs.filter((run) => run.stage === index).map((run) => runContent(run, from)),
  };
}

function runContent({ stage, run, bench }: RunInJob, { job, tables }: LoadedJob): object {
  const stated = run === undefined ? {} : (job.stages?.[stage]?.runs?.[run] ?? {});
  const table = tables.find((one) => one.stage === stage && one.run === run)?.table;
  return { ...omitKeys(stated, ["flow", "file"]), bench, readings: table?.rows.map(readingContent) };
}

/** A row without its place in the text. */
function readingContent({ lift, repeat, readings, pressure, range }: ReadingsRow): object {
  const typed = (cell: object | undefined) => cell && omitKeys(cell, ["span", "text"]);
  return {
    lift: typed(lift),
    repeat,
    readings: [typed(readings.intake), typed(readings.exhaust)],
    pressure: [typed(pressure.intake), typed(pressure.exhaust)],
    range: [range.intake?.text, range.exhaust?.text],
  };
}

const hashOf = (bytes: Uint8Array | undefined) => bytes && createHash("sha256").update(bytes).digest("base64url");

const omitKeys = (map: object, names: readonly string[]): Readonly<Record<string, unknown>> =>
  Object.fromEntries(Object.entries(map).filter(([name]) => !names.includes(name)));

type Withholding = { readonly keys: KeyTree; readonly withheld: Withheld };

/** Removes the keys that are withheld; without `from` the value is returned as it is. */
function withoutWithheld(value: unknown, from: Withholding | undefined): unknown {
  if (from === undefined) return value;
  if (Array.isArray(value)) return value.map((item) => withoutWithheld(item, from));
  if (!isMap(value)) return value;
  return Object.fromEntries(
    Object.entries(value).flatMap(([name, item]) => {
      const node = from.keys.keys.get(name);
      if (node && isKeyWithheld(node, from.withheld)) return [];
      const keys = node ?? from.keys.record;
      return [[name, withoutWithheld(item, keys && { ...from, keys })]];
    }),
  );
}

/** Significant digits of a number: more than can be typed with sense, fewer than a reordered conversion changes. */
const DIGITS = 10;

/** JSON with sorted keys and rounded numbers; what is empty is left out. */
function serializeCanonically(value: unknown): string {
  return JSON.stringify(canonicalize(value)) ?? "";
}

function canonicalize(value: unknown): unknown {
  if (typeof value === "number") return Number(value.toPrecision(DIGITS));
  if (Array.isArray(value)) return value.map((item) => canonicalize(item) ?? null);
  if (!isMap(value)) return value === false ? undefined : value;
  const entries = Object.keys(value)
    .toSorted()
    .map((name) => [name, canonicalize(value[name])] as const)
    .filter(([, item]) => item !== undefined && !(Array.isArray(item) && item.length === 0));
  return entries.length > 0 ? Object.fromEntries(entries) : undefined;
}
