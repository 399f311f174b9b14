import { z } from "zod";
import { jobSchema } from "./schema/job.ts";
import { shopSchema } from "./schema/shop.ts";
import { templateSchema } from "./template-schema.ts";

export const SCHEMA_NAMES = ["job", "shop", "template"] as const;
export type SchemaName = (typeof SCHEMA_NAMES)[number];

const TITLES: Readonly<Record<SchemaName, string>> = {
  job: "A job of a cylinder-head shop: a customer's head, or a product",
  shop: "shop.yaml: the shop's own facts and defaults",
  template: "A template: rows of named blocks",
};

/** JSON Schema of a file, for editors that complete and explain keys. Made from the schema that checks the file itself. */
export function jsonSchema(name: SchemaName): Readonly<Record<string, unknown>> {
  const schema = { job: () => jobSchema({}), shop: () => shopSchema({}), template: templateSchema }[name]();
  const { $schema, ...made } = z.toJSONSchema(schema, { io: "input", unrepresentable: "throw" }) as Record<
    string,
    unknown
  >;
  // Which kind a job file is decides what it must hold; the checker says it in words, an editor needs it spelled out.
  const kinds =
    name === "job"
      ? { anyOf: [{ required: ["job", "customer", "stages"] }, { required: ["product", "samples"] }] }
      : {};
  return { $schema, title: TITLES[name], ...made, ...kinds };
}
