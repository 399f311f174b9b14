import type { YamlValue } from "../../parse/yaml/source-document.ts";
import { inlineYaml, stringifyYaml } from "../../parse/yaml/stringify-yaml.ts";
import type { StarterFacts } from "./starter.ts";

type PlainMap = { readonly [key: string]: YamlValue };
const isMap = (value: YamlValue): value is PlainMap => typeof value === "object" && !Array.isArray(value);

/** What tells a kind of head. */
const COPIED = ["head", "heads", "engine"];
/** What tells one head from its like: it does not come along. */
const ITS_OWN = ["stamped", "condition"];

/** A starter for another head of a kind that the shop knows: head and engine of a job, nothing of its customer or readings. */
export function starterFrom({ number, issued, schema }: StarterFacts, source: YamlValue, units: PlainMap): string {
  const from: PlainMap = isMap(source) ? source : {};
  const copied = Object.fromEntries(
    Object.entries(from)
      .filter(([key]) => COPIED.includes(key))
      .map(([key, value]) => [key, withoutItsOwn(value)]),
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
    // Those in force where the numbers were typed: the new job may stand under another shop.
    ...(Object.keys(units).length > 0 ? [`units: ${inlineYaml(units)}`] : []),
    "stages:",
    "  - name: As received",
    "    # flow: |",
    "    #   lift    intake  exhaust",
    "",
  ].join("\n");
}

function withoutItsOwn(value: YamlValue): YamlValue {
  if (Array.isArray(value)) return value.map(withoutItsOwn);
  if (!isMap(value)) return value;
  const kept = Object.entries(value).filter(([key]) => !ITS_OWN.includes(key));
  return Object.fromEntries(kept.map(([key, item]) => [key, withoutItsOwn(item)]));
}
