import type { Model } from "../../model/model.ts";
import type { YamlValue } from "../../parse/yaml/source-document.ts";
import type { JobLine, TextChange } from "./job-diff.ts";

/** Keys of text facts and their names, in the order of a sheet. */
const FACTS: readonly (readonly [path: string, what: string])[] = [
  ["job", "job"],
  ["product.part", "part"],
  ["product.name", "product"],
  ["product.revision", "product revision"],
  ["revision", "revision"],
  ["replaces", "replaces"],
  ["because", "because"],
  ["draft", "draft"],
  ["issued", "issued"],
  ["received", "received"],
  ["customer.name", "customer"],
  ["customer.reference", "customer's reference"],
  ["head.name", "head"],
  ["head.casting", "casting"],
  ["head.stamped", "stamped"],
  ["head.material", "material"],
  ["head.condition", "condition"],
  ["engine.name", "engine"],
  ["engine.cylinders", "cylinders"],
  ["bench.name", "bench"],
  ["springs.part", "springs"],
  ["springs.intake.part", "intake springs"],
  ["springs.exhaust.part", "exhaust springs"],
  ["guides.material", "guides"],
  ["delivered", "delivered"],
  ["may_compare", "may compare"],
  ["remarks", "remarks"],
];

/** Header texts that differ between the two jobs. */
export function headerChanges(a: YamlValue, b: YamlValue): TextChange[] {
  return FACTS.flatMap(([path, what]) => {
    const [from, to] = [textAt(a, path), textAt(b, path)];
    return from === to ? [] : [{ what, ...(from !== undefined && { from }), ...(to !== undefined && { to }) }];
  });
}

function textAt(value: YamlValue, path: string): string | undefined {
  let here: unknown = value;
  for (const part of path.split(".")) {
    if (typeof here !== "object" || here === null || !Object.hasOwn(here, part)) return undefined;
    here = (here as Record<string, unknown>)[part];
  }
  return typeof here === "string" ? here.trim() : undefined;
}

/** Lines of work, checks and parts that only one of the jobs has. */
export function lineChanges(a: Model, b: Model): { readonly added: JobLine[]; readonly removed: JobLine[] } {
  const [before, after] = [jobLines(a), jobLines(b)];
  return { added: linesMissingFrom(after, before), removed: linesMissingFrom(before, after) };
}

function linesMissingFrom(lines: readonly JobLine[], others: readonly JobLine[]): JobLine[] {
  const known = new Set(others.map(lineKey));
  return lines.filter((line) => !known.has(lineKey(line)));
}

const lineKey = ({ list, text }: JobLine) => `${list}\n${text}`;
const joinParts = (parts: readonly (string | undefined)[]) => parts.filter(Boolean).join(", ");

function jobLines({ text, stages }: Model): JobLine[] {
  const { work, notDone, checks, parts, alsoMeasured, agreed, cautions } = text;
  const held = stages.flatMap(({ name, valveTrain = [] }) =>
    valveTrain.flatMap(({ cylinder, side, letter, vacuum }) =>
      typeof vacuum === "string" ? [`${name}, ${cylinder}${side === "intake" ? "I" : "E"}${letter}: ${vacuum}`] : [],
    ),
  );
  return [
    ...work.flatMap(({ area, items }) => items.map((item) => ({ list: "work", text: `${area}: ${item}` }))),
    ...notDone.map((text) => ({ list: "not done", text })),
    ...checks.map(({ check, method, result, value, limit }) => ({
      list: "checks",
      text: joinParts([check, method, result, value, limit && `limit ${limit}`]),
    })),
    ...parts.map(({ part, quantity, note }) => ({
      list: "parts",
      text: joinParts([part, quantity && `× ${quantity}`, note]),
    })),
    ...alsoMeasured.map(({ what, values, how }) => ({
      list: "also measured",
      text: joinParts([what, ...values.map(({ label, value }) => `${label} ${value}`), how]),
    })),
    ...held.map((words) => ({ list: "vacuum", text: words })),
    ...agreed.map((text) => ({ list: "agreed", text })),
    ...cautions.map((text) => ({ list: "cautions", text })),
  ];
}
