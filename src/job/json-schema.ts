import { z } from "zod";
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

/** The JSON Schema of a file, for editors that complete and explain keys, derived from the schema that validates the file. */
export function jsonSchema(name: SchemaName): Readonly<Record<string, unknown>> {
  const schema = { job: jobSchema, shop: shopSchema, template: templateSchema }[name]();
  const { $schema, ...made } = z.toJSONSchema(schema, { io: "input", unrepresentable: "throw" }) as Node;
  return { $schema, title: TITLES[name], ...adaptForEditors(made), ...(name === "job" ? KINDS : {}) };
}

type Node = { readonly [key: string]: unknown };

const STATED = { not: { type: "null" } };
/** The keys that each kind of job file needs. The program reports missing ones itself; editors need them in the schema. */
const KINDS = {
  anyOf: [
    {
      required: ["job", "customer", "stages"],
      properties: { job: STATED, customer: STATED, stages: STATED },
      anyOf: [
        {
          required: ["head"],
          properties: { head: { type: "object", required: ["name"], properties: { name: STATED } } },
        },
        { required: ["heads"], properties: { heads: STATED } },
      ],
    },
    { required: ["product", "samples"], properties: { product: STATED, samples: STATED } },
  ],
};

/** Adds an example to every key and allows null: a key with nothing behind its colon counts as absent. */
function adaptForEditors(node: Node): Node {
  // `form`, `exported` and `example` are for the program only.
  const { properties, required = [], items, additionalProperties, anyOf, form, exported, example, ...rest } = node;
  const keys = Object.entries((properties ?? {}) as Readonly<Record<string, Node>>).map(([key, inner]) => {
    const done = addExample(adaptForEditors(inner), inner);
    return [key, (required as readonly string[]).includes(key) ? done : allowNull(done)];
  });
  const inside = (each: unknown) => adaptForEditors(each as Node);
  return {
    ...rest,
    ...(anyOf === undefined ? {} : { anyOf: (anyOf as readonly Node[]).map(inside) }),
    ...(properties === undefined ? {} : { properties: Object.fromEntries(keys) }),
    ...("required" in node ? { required } : {}),
    ...(items === undefined ? {} : { items: allowNull(inside(items)) }),
    ...(additionalProperties === undefined
      ? {}
      : {
          additionalProperties: isNode(additionalProperties)
            ? allowNull(inside(additionalProperties))
            : additionalProperties,
        }),
  };
}

const isNode = (value: unknown): value is Node => typeof value === "object" && value !== null;

function addExample(node: Node, { example }: Node): Node {
  if (node.examples !== undefined || node.deprecated === true) return node;
  const first = (node.enum as readonly string[] | undefined)?.[0] ?? example;
  return first === undefined ? node : { ...node, examples: [structuredClone(first)] };
}

function allowNull(node: Node): Node {
  if (node.anyOf !== undefined) return { ...node, anyOf: [...(node.anyOf as readonly Node[]), { type: "null" }] };
  if (node.type === undefined) return node;
  const words = node.enum === undefined ? {} : { enum: [...(node.enum as readonly unknown[]), null] };
  return { ...node, type: [node.type, "null"].flat(), ...words };
}
