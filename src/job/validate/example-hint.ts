import type { Path, YamlValue } from "../../parse/yaml/source-document.ts";
import { inlineYaml, type YamlData } from "../../parse/yaml/stringify-yaml.ts";

/** A text of a list that a colon made into a map: `[ Guides: not replaced ]`. */
export function textWithColon(value: YamlValue): string | undefined {
  if (typeof value !== "object" || Array.isArray(value)) return undefined;
  const [only, more] = Object.entries(value);
  return only && !more && typeof only[1] === "string" ? `${only[0]}: ${only[1]}` : undefined;
}

/** A hint with the key's example, into which the typed word goes where it most likely belongs. */
export function exampleHint(
  path: Path,
  shapes: readonly string[],
  value: YamlValue,
  example?: YamlData,
): string | undefined {
  const key = path.at(-1);
  if (typeof key !== "string" || example === undefined) return undefined;
  const fits = Array.isArray(example) ? "a list" : typeof example === "object" ? "a map of keys" : "a single value";
  // A table does not fit on one line.
  if (!shapes.includes(fits) || JSON.stringify(example).includes("\\n")) return undefined;
  return `write ${key}: ${inlineYaml(insertTyped(example, value))}`;
}

/** The example with the typed word as its `name`; unchanged where the word does not fit there. */
function insertTyped(example: YamlData, value: YamlValue): YamlData {
  const isWord = (one: unknown) => typeof one === "string" && /^\p{L}/u.test(one) && one.length <= 40;
  if (!isWord(value) || typeof example !== "object" || Array.isArray(example)) return example;
  const [first] = Object.entries(example);
  return first && isWord(first[1]) && first[0] === "name" ? { [first[0]]: value as string } : example;
}
