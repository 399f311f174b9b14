import { z } from "zod";
import { definitions, type EditorForm, editorNode, type Node, refer, UNLISTED } from "./editor-forms.ts";
import { ONE_OF_TWO } from "./rules/one-of-two.ts";
import { jobSchema } from "./schema/job.ts";
import { shopSchema } from "./schema/shop.ts";
import { templateSchema } from "./schema/template.ts";

export const SCHEMA_NAMES = ["job", "shop", "template"] as const;
export type SchemaName = (typeof SCHEMA_NAMES)[number];

const TITLES: Readonly<Record<SchemaName, string>> = {
  job: "A job of a cylinder-head shop: a customer's head, or a product",
  shop: "shop.yaml: the shop's own facts and defaults",
  template: "A template: rows of named blocks",
};

/**
 * The JSON Schema of a file, for editors that complete and explain keys, derived from the schema that validates the file;
 * `blocks` are the names that a template may use.
 */
export function jsonSchema(name: SchemaName, blocks: readonly string[] = []): Readonly<Record<string, unknown>> {
  const schema = { job: jobSchema, shop: shopSchema, template: templateSchema }[name]();
  const { $schema, ...made } = z.toJSONSchema(schema, { io: "input", unrepresentable: "throw" }) as Node;
  const whole = { title: TITLES[name], ...adaptForEditors(made, blocks), ...(name === "job" ? { anyOf: KINDS } : {}) };
  const text = JSON.stringify(whole);
  const used = Object.entries(definitions()).filter(([one]) => text.includes(`"#/$defs/${one}"`));
  return { $schema, ...whole, ...(used.length > 0 ? { $defs: Object.fromEntries(used) } : {}) };
}

const object = (rest: Node): Node => ({ type: "object", ...rest });
const isNull = (key: string) => object({ properties: { [key]: { type: "null" } }, required: [key] });
const NOT_NULL = { not: { type: "null" } };
// As negations, since an editor offers the keys of every other schema once more.
/** These keys with something behind them. */
const stated = (...required: string[]) => object({ ...having(...required), not: { anyOf: required.map(isNull) } });
const having = (...required: string[]) => ({
  required,
  properties: Object.fromEntries(required.map((key) => [key, true])),
});
/** No two, or none, of these keys with something behind them. */
const notAll = (...required: string[]) => ({
  not: object({ required, properties: Object.fromEntries(required.map((key) => [key, NOT_NULL])) }),
});

/** The keys that each kind of job file needs. The program reports missing ones itself; editors need them in the schema. */
const KINDS = [
  {
    ...stated("job", "customer"),
    allOf: [
      notAll("product"),
      { anyOf: [stated("stages"), stated("heads_of")] },
      notAll("samples"),
      { anyOf: [headWithName(), stated("heads")] },
    ],
  },
  { ...stated("product", "samples"), allOf: ["job", "customer", "stages"].map((key) => notAll(key)) },
];

function headWithName(): Node {
  const nameless = { anyOf: [{ type: "null" }, object({ not: object(having("name")) }), isNull("name")] };
  return object({ ...having("head"), not: object({ properties: { head: nameless }, required: ["head"] }) });
}

/** Allows empty values, gives every key an example, and says of single values what a JSON Schema can say. */
function adaptForEditors(node: Node, blocks: readonly string[]): Node {
  // `form`, `editor`, `exported` and `example` are for the program only; YAML makes numbers of some keys, which are no strings.
  const {
    form,
    editor,
    exported,
    example,
    propertyNames,
    properties,
    required = [],
    items,
    additionalProperties,
    ...rest
  } = node;
  const { description, examples } = rest;
  const about = {
    ...(description === undefined ? {} : { description }),
    ...(examples === undefined ? {} : { examples }),
  };
  if (editor !== undefined) return { ...about, ...editorNode(editor as EditorForm, blocks) };
  const inside = (each: unknown) => adaptForEditors(each as Node, blocks);
  const { anyOf } = rest;
  return {
    ...rest,
    ...(anyOf === undefined ? {} : { anyOf: mergeBranches((anyOf as readonly Node[]).map(inside)) }),
    ...(properties === undefined
      ? {}
      : adaptKeys(properties as Readonly<Record<string, Node>>, required as readonly string[], inside)),
    ...("required" in node ? { required } : {}),
    ...(items === undefined ? {} : { items: itemNode(inside(items)) }),
    ...(additionalProperties === undefined
      ? {}
      : {
          additionalProperties: isNode(additionalProperties)
            ? allowEmpty(inside(additionalProperties))
            : additionalProperties,
        }),
  };
}

function adaptKeys(
  properties: Readonly<Record<string, Node>>,
  required: readonly string[],
  inside: (node: Node) => Node,
): Node {
  const shown = Object.entries(properties).filter(([, { deprecated }]) => deprecated !== true);
  const keys = shown.map(([key, inner]) => {
    const done = addExample(inside(inner), inner);
    return [key, required.includes(key) ? done : allowEmpty(done)];
  });
  const pairs = ONE_OF_TWO.filter((pair) => pair.every((key) => Object.hasOwn(properties, key)));
  const both = pairs.map((pair) => notAll(...pair));
  return { properties: Object.fromEntries(keys), ...(both.length > 0 ? { allOf: both } : {}) };
}

/** Branches of a union, without unions in unions; a map first, since a validator names the faults of the first. */
const mergeBranches = (branches: readonly Node[]): readonly Node[] => {
  const flat = branches.flatMap((one) =>
    one.anyOf !== undefined && one.description === undefined && one.examples === undefined
      ? (one.anyOf as readonly Node[])
      : [one],
  );
  return flat.toSorted((a, b) => Number(b.type === "object") - Number(a.type === "object"));
};

/** Whether a value is a map, which as an example an editor would show as no more than that. */
const isMap = (value: unknown): boolean => isNode(value) && !Array.isArray(value);
const isNode = (value: unknown): value is Node => typeof value === "object" && value !== null;

function addExample(node: Node, { example }: Node): Node {
  if (node.examples !== undefined || [example].flat().some(isMap)) return node;
  const first = (node.enum as readonly string[] | undefined)?.[0] ?? example;
  return first === undefined ? node : { ...node, examples: [structuredClone(first)] };
}

/** A node that also accepts an empty value; its description and examples stay outermost, where editors look. */
function allowEmpty(node: Node): Node {
  if (node.anyOf !== undefined) return { ...node, anyOf: [...(node.anyOf as readonly Node[]), refer("empty")] };
  const { description, examples, ...rest } = node;
  return {
    ...(description === undefined ? {} : { description }),
    ...(examples === undefined ? {} : { examples }),
    anyOf: [rest, refer("empty")],
  };
}

/**
 * An item of a list. A condition in place of a union: a language server looks into no union after a dash, and offers each of its
 * branches as an item to add.
 */
function itemNode(node: Node): Node {
  const { description, anyOf, ...own } = node;
  const branches = (anyOf as readonly Node[] | undefined) ?? [own];
  const maps = branches.filter(({ type }) => type === "object");
  if (maps.length === branches.length) return allowEmpty(node);
  const examples = (own.examples ?? branches.flatMap((one) => one.enum ?? [])) as readonly unknown[];
  return {
    ...(description === undefined ? {} : { description }),
    ...(examples.length > 0 ? { examples } : {}),
    ...(maps.length > 0 ? UNLISTED : {}),
    if: refer("empty"),
    else: branches.length > 1 ? { anyOf: branches } : branches[0],
  };
}
