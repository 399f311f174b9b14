import type { YamlValue } from "../../parse/yaml/source-document.ts";
import type { TextChange } from "./job-diff.ts";

/** Facts in words and what they are called, in the order in which a sheet has them. */
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
  ["delivered", "delivered"],
  ["may_compare", "may compare"],
  ["remarks", "remarks"],
];

/** Words of the header that are not the same; a customer is named only where he is another. */
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
