import type { Plain } from "../source/located.ts";
import type { StarterFacts } from "./starter.ts";
import { yamlScalar } from "./yaml-scalar.ts";

type PlainMap = { readonly [key: string]: Plain };
const isMap = (value: Plain | undefined): value is PlainMap =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** What tells one head from its like: it does not come along. */
const ITS_OWN = new Set(["stamped", "condition"]);

/** A starter for another head of a kind that the shop knows: head and engine of a job, nothing of its customer or readings. */
export function starterFrom({ number, issued, schema }: StarterFacts, source: Plain, units: PlainMap): string {
  const from: PlainMap = isMap(source) ? source : {};
  const copied = ["head", "heads", "engine"].flatMap((key) => {
    const value = from[key];
    return value === undefined ? [] : [block(key, withoutItsOwn(value), "")];
  });
  return [
    ...(schema === undefined ? [] : [`# yaml-language-server: $schema=${schema}`]),
    "# A job for another head of this kind. Type the customer, the marks on the head, its sizes and its readings.",
    `job: ${JSON.stringify(number)}`,
    `issued: ${issued}`,
    "draft: true                  # printed across the sheet; delete this line when it goes to the customer",
    "customer: { name: Name of the customer }",
    ...(from.head === undefined && from.heads === undefined ? ["head: { name: What you call this head }"] : []),
    ...copied,
    // Those in force where the numbers were typed: the new job may stand under another shop.
    ...(Object.keys(units).length > 0 ? [`units: ${flow(units)}`] : []),
    "stages:",
    "  - name: As received",
    "    # flow: |",
    "    #   lift    intake  exhaust",
    "",
  ].join("\n");
}

function withoutItsOwn(value: Plain): Plain {
  if (Array.isArray(value)) return value.map(withoutItsOwn);
  if (!isMap(value)) return value;
  return Object.fromEntries(Object.entries(value).filter(([key]) => !ITS_OWN.has(key)));
}

/** A key with its value in block style; a text of several lines stays a literal block, for tables are. */
function block(key: string, value: Plain, indent: string): string {
  const inner = `${indent}  `;
  const name = /^[a-z_]\w*$/i.test(key) ? key : JSON.stringify(key);
  if (typeof value === "string") {
    if (!value.includes("\n")) return `${indent}${name}: ${yamlScalar(value)}`;
    const lines = value.replace(/\n+$/, "").split("\n");
    return [`${indent}${name}: |`, ...lines.map((line) => `${inner}${line}`)].join("\n");
  }
  if (Array.isArray(value)) return [`${indent}${name}:`, ...value.map((item) => `${inner}- ${flow(item)}`)].join("\n");
  return [`${indent}${name}:`, ...Object.entries(value).map(([each, one]) => block(each, one, inner))].join("\n");
}

const flow = (value: Plain): string => {
  if (typeof value === "string") return yamlScalar(value);
  if (Array.isArray(value)) return `[ ${value.map(flow).join(", ")} ]`;
  return `{ ${Object.entries(value)
    .map(([key, one]) => `${/^[a-z_]\w*$/i.test(key) ? key : JSON.stringify(key)}: ${flow(one)}`)
    .join(", ")} }`;
};
