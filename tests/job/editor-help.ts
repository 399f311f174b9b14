import { Ajv2020, type ValidateFunction } from "ajv/dist/2020.js";
import { parse } from "yaml";
import { jsonSchema, type SchemaName } from "../../src/job/json-schema.ts";
import { BLOCKS } from "../../src/sheet/blocks.ts";

const ajv = new Ajv2020({
  strict: true,
  allowUnionTypes: true,
  strictTypes: true,
  strictTuples: true,
  allErrors: true,
});

/** The schema of a file as editors have it. */
export const schemaOf = (name: SchemaName) => jsonSchema(name, Object.keys(BLOCKS));
const validators = new Map<SchemaName, ValidateFunction>();

/** The errors that an editor underlines: YAML 1.2 against the JSON Schema, by an independent validator. */
export function editorFaults(name: SchemaName, text: string): readonly string[] {
  const validate = validators.get(name) ?? ajv.compile(schemaOf(name));
  validators.set(name, validate);
  return validate(parse(text))
    ? []
    : (validate.errors ?? []).map(
        ({ instancePath, message, params }) => `${instancePath} ${message} ${JSON.stringify(params)}`,
      );
}

/** Whether a value would pass where a node of a whole schema stands. */
export const accepts = (whole: Readonly<Record<string, unknown>>, node: object, value: unknown): boolean =>
  ajv.validate({ ...node, $defs: whole.$defs ?? {} }, value);

type Tree = unknown;
type Path = readonly (string | number)[];

/** Every place in a value, outermost first. */
export function places(value: Tree, path: Path = []): Path[] {
  if (typeof value !== "object" || value === null) return [path];
  return [
    path,
    ...Object.entries(value).flatMap(([key, inner]) =>
      places(inner, [...path, Array.isArray(value) ? Number(key) : key]),
    ),
  ];
}

/** Common mistakes, with the value that they leave at a path. */
export const SLIPS: Readonly<Record<string, Tree>> = {
  "nothing behind the colon": null,
  "a word": "some words",
  "a number": 2,
  "yes or no": true,
  "a list": ["1", "2"],
  "a map": { some: "thing" },
};
export const SLIP_NAMES = ["a key left out", "a key misspelt", ...Object.keys(SLIPS)];

/** The value with a slip at a place. */
export function slipped(value: Tree, path: Path, slip: string): Tree {
  const copy = structuredClone(value);
  let owner = copy as Record<string, Tree>;
  for (const part of path.slice(0, -1)) owner = owner[part] as Record<string, Tree>;
  const last = path.at(-1)!;
  if (Object.hasOwn(SLIPS, slip)) owner[last] = SLIPS[slip];
  else if (!Array.isArray(owner)) {
    if (slip === "a key misspelt") owner[`${last}x`] = owner[last];
    delete owner[last];
  }
  return copy;
}
