import type { Kept } from "./shape.ts";

/** Maps, lists and texts as YAML: every text in double quotes, a table as a literal block. */
export function yamlText(value: { readonly [key: string]: Kept }): string {
  return mapLines(value)
    .map((line) => `${line}\n`)
    .join("");
}

const mapLines = (value: { readonly [key: string]: Kept }): readonly string[] =>
  Object.entries(value).flatMap(([key, item]) => lines(item, `${/^[a-z_]+$/.test(key) ? key : quoted(key)}:`));

/** A value behind what leads to it: on the same line when it is one word, else below and further in. */
function lines(value: Kept, lead: string): readonly string[] {
  if (typeof value === "string")
    return isTable(value) ? [`${lead} |`, ...inwards(value.trimEnd().split("\n"))] : [`${lead} ${quoted(value)}`];
  if (isList(value)) return [lead, ...inwards(value.flatMap(itemLines))];
  return [lead, ...inwards(mapLines(value))];
}

function itemLines(item: Kept): readonly string[] {
  if (typeof item === "string" || isList(item)) return lines(item, "-");
  const [first = "{}", ...rest] = mapLines(item);
  return [`- ${first}`, ...inwards(rest)];
}

const isList = (value: Kept): value is readonly Kept[] => Array.isArray(value);
/** Words of several lines may begin with blanks or hold controls; a table never does. */
const isTable = (value: string) => /^[a-z]/.test(value) && /\n$/.test(value) && !/[^\n -~\u00a0-\uffff]/.test(value);
const inwards = (all: readonly string[]) => all.map((line) => (line === "" ? line : `  ${line}`));

/** JSON's strings are YAML's double-quoted ones, but for what JSON leaves bare and YAML does not take. */
const quoted = (text: string) =>
  JSON.stringify(text).replace(
    /[\u007f-\u009f\u2028\u2029\ufeff]/g,
    (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );
