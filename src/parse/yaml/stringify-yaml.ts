/** Data that YAML can hold. */
export type YamlData = string | number | boolean | readonly YamlData[] | YamlMap;
export type YamlMap = { readonly [key: string]: YamlData };

/** Which texts are double-quoted: all but tables, or only those that a YAML parser might not take as plain text. */
type Quote = "always" | "when-needed";

/** Serialises a map in block style, one key a line; a table becomes a literal block. */
export const stringifyYaml = (map: YamlMap, quote: Quote): string =>
  mapLines(map, quote)
    .map((line) => `${line}\n`)
    .join("");

/** Serialises a value on one line, maps and lists in brackets. */
export function inlineYaml(value: YamlData): string {
  if (typeof value !== "object") return scalar(value, "when-needed");
  const inner = isList(value)
    ? value.map(inlineYaml)
    : Object.entries(value).map(([key, item]) => `${scalar(key, "when-needed")}: ${inlineYaml(item)}`);
  const [open, close] = isList(value) ? "[]" : "{}";
  return inner.length === 0 ? `${open}${close}` : `${open} ${inner.join(", ")} ${close}`;
}

const mapLines = (map: YamlMap, quote: Quote): readonly string[] =>
  Object.entries(map).flatMap(([key, value]) => {
    const name = /^[a-z_]+$/.test(key) ? key : scalar(key, quote);
    return valueLines(value, `${name}:`, quote);
  });

/** A value behind its key or dash: a scalar on the same line, else below and indented. */
function valueLines(value: YamlData, lead: string, quote: Quote): readonly string[] {
  if (typeof value === "string" && isTable(value)) return [`${lead} |`, ...indentLines(value.slice(0, -1).split("\n"))];
  if (typeof value !== "object") return [`${lead} ${scalar(value, quote)}`];
  const inner = isList(value) ? value.flatMap((item) => itemLines(item, quote)) : mapLines(value, quote);
  return inner.length === 0 ? [`${lead} ${inlineYaml(value)}`] : [lead, ...indentLines(inner)];
}

function itemLines(item: YamlData, quote: Quote): readonly string[] {
  if (typeof item !== "object" || isList(item)) return valueLines(item, "-", quote);
  const [first = "{}", ...rest] = mapLines(item, quote);
  return [`- ${first}`, ...indentLines(rest)];
}

/** `Array.isArray` does not narrow readonly arrays. */
const isList = (value: YamlData): value is readonly YamlData[] => Array.isArray(value);
const indentLines = (lines: readonly string[]) => lines.map((line) => (line === "" ? line : `  ${line}`));

/** Whether a text is written as a literal block: it begins with a small letter and needs no escapes. */
const isTable = (text: string) => /^[a-z](?:.*\S)?\n$/s.test(text) && text.search(UNSAFE) < 0;

function scalar(value: string | number | boolean, quote: Quote): string {
  if (typeof value !== "string") return String(value);
  const isPlain = /^[\w./][\w .%/-]*$/.test(value) && !value.endsWith(" ") && !KEYWORD.test(value);
  return quote === "when-needed" && isPlain ? value : quoteText(value);
}

const KEYWORD = /^(?:true|false|null|yes|no|on|off)$/i;

/** Characters that YAML, or `parseYaml`, refuses unescaped. */
const UNSAFE = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u2028\u2029\ufeff\ufffd]/g;

/** A JSON string is a double-quoted YAML scalar once the characters that JSON leaves unescaped are escaped. */
const quoteText = (text: string) =>
  JSON.stringify(text).replace(UNSAFE, (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, "0")}`);
