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

/** JSON Schema of a file, for editors that complete and explain keys. Made from the schema that checks the file itself. */
export function jsonSchema(name: SchemaName): Readonly<Record<string, unknown>> {
  const schema = {
    job: () => jobSchema({ units: {} }),
    shop: () => shopSchema({ units: {} }),
    template: templateSchema,
  }[name]();
  const { $schema, ...made } = z.toJSONSchema(schema, { io: "input", unrepresentable: "throw" }) as Node;
  return { $schema, title: TITLES[name], ...forEditors(made), ...(name === "job" ? KINDS : {}) };
}

type Node = { readonly [key: string]: unknown };

const STATED = { not: { type: "null" } };
/** Which kind a job file is decides what it must hold; the checker says it in words, an editor needs it spelled out. */
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

/** With an example for every key; and a key with nothing behind its colon is an absent key, as the checker has it. */
function forEditors(node: Node): Node {
  // What stays within the program: how a value is read, and whether it leaves the shop.
  const { properties, required = [], items, additionalProperties, anyOf, form, exported, example, ...rest } = node;
  const keys = Object.entries((properties ?? {}) as Readonly<Record<string, Node>>).map(([key, inner]) => {
    const done = withExample(forEditors(inner), inner);
    return [key, (required as readonly string[]).includes(key) ? done : orNothing(done)];
  });
  const inside = (each: unknown) => forEditors(each as Node);
  return {
    ...rest,
    ...(anyOf === undefined ? {} : { anyOf: (anyOf as readonly Node[]).map(inside) }),
    ...(properties === undefined ? {} : { properties: Object.fromEntries(keys) }),
    ...("required" in node ? { required } : {}),
    ...(items === undefined ? {} : { items: orNothing(inside(items)) }),
    ...(additionalProperties === undefined
      ? {}
      : {
          additionalProperties: isNode(additionalProperties)
            ? orNothing(inside(additionalProperties))
            : additionalProperties,
        }),
  };
}

const isNode = (value: unknown): value is Node => typeof value === "object" && value !== null;

function withExample(node: Node, { example }: Node): Node {
  if (node.examples !== undefined || node.deprecated === true) return node;
  const written = (node.enum as readonly string[] | undefined)?.[0] ?? example;
  return written === undefined ? node : { ...node, examples: [structuredClone(written)] };
}

function orNothing(node: Node): Node {
  if (node.anyOf !== undefined) return { ...node, anyOf: [...(node.anyOf as readonly Node[]), { type: "null" }] };
  if (node.type === undefined) return node;
  const words = node.enum === undefined ? {} : { enum: [...(node.enum as readonly unknown[]), null] };
  return { ...node, type: [node.type, "null"].flat(), ...words };
}
