import type { YamlValue } from "../../parse/yaml/source-document.ts";
import { inlineYaml, stringifyYaml } from "../../parse/yaml/stringify-yaml.ts";
import { isMap } from "../../util/is-map.ts";
import type { StarterFacts } from "./starter.ts";

type PlainMap = { readonly [key: string]: YamlValue };

/** The keys that describe a kind of head. */
const COPIED = ["head", "heads", "engine"];
/** The keys that describe one head of its kind; they are not copied. */
const OWN_FACTS = ["stamped", "condition"];

/** The keys of a stage that hold readings, or say when and how they were taken. */
const READINGS = ["flow", "runs", "bench", "date", "by", "repeats"];

/**
 * A starter job for another head of the same kind: head and engine of a job, without its customer and readings; with `sizes` also
 * its work, and its stages without their readings.
 */
export function starterFrom(
  { number, issued, schema }: StarterFacts,
  source: YamlValue,
  units: PlainMap,
  sizes = false,
): string {
  const from: PlainMap = isMap(source) ? source : {};
  const copied = Object.fromEntries(
    Object.entries(from)
      .filter(([key]) => COPIED.includes(key))
      .map(([key, value]) => [key, omitOwnFacts(value)]),
  );
  return [
    ...(schema === undefined ? [] : [`# yaml-language-server: $schema=${schema}`]),
    "# A job for another head of this kind. Type the customer, the marks on the head, its sizes and its readings.",
    `job: ${JSON.stringify(number)}`,
    `issued: ${issued}`,
    "draft: true                  # printed across the sheet; delete this line when it goes to the customer",
    "customer: { name: Name of the customer }",
    ...(copied.head === undefined && copied.heads === undefined ? ["head: { name: What you call this head }"] : []),
    ...stringifyYaml(copied, "when-needed").split("\n").slice(0, -1),
    // The units of the copied numbers: the new job may belong to another shop.
    ...(Object.keys(units).length > 0 ? [`units: ${inlineYaml(units)}`] : []),
    ...(sizes ? sizesAndWork(from) : FIRST_STAGE),
    "",
  ].join("\n");
}

const FIRST_STAGE = ["stages:", "  - name: As received", "    # flow: |", "    #   lift    intake  exhaust"];

function sizesAndWork({ stages, work }: PlainMap): readonly string[] {
  const kept = (Array.isArray(stages) ? stages : []).map((stage) =>
    isMap(stage) ? Object.fromEntries(Object.entries(stage).filter(([key]) => !READINGS.includes(key))) : stage,
  );
  const copied = { ...(kept.length > 0 && { stages: kept }), ...(work !== undefined && { work }) };
  return [...(kept.length > 0 ? [] : FIRST_STAGE), ...stringifyYaml(copied, "when-needed").split("\n").slice(0, -1)];
}

function omitOwnFacts(value: YamlValue): YamlValue {
  if (Array.isArray(value)) return value.map(omitOwnFacts);
  if (!isMap(value)) return value;
  const rest = Object.entries(value).filter(([key]) => !OWN_FACTS.includes(key));
  return Object.fromEntries(rest.map(([key, item]) => [key, omitOwnFacts(item)]));
}
