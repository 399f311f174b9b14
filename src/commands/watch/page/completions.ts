import type { PlaceInYaml } from "./place-in-yaml.ts";

/** The parts of JSON Schema that completion uses. */
export type Schema = {
  readonly description?: string;
  readonly type?: string | readonly string[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly additionalProperties?: boolean | Schema;
  readonly items?: Schema;
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
  readonly allOf?: readonly Schema[];
  readonly then?: Schema;
  readonly else?: Schema;
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly examples?: readonly unknown[];
};

/** A completion at the cursor. */
type Completion = {
  readonly label: string;
  readonly kind: "key" | "value" | "example";
  readonly about?: string;
  readonly example?: string;
};

/** Completions at a place: keys not yet used, or values and examples of the key. */
export function completionsAt({ path, kind, beside }: PlaceInYaml, schema: Schema): readonly Completion[] {
  const nodes = schemasAt(path, schema);
  const completions = [
    ...(kind === "key" ? nodes.flatMap((node) => keyCompletions(node, beside)) : []),
    ...nodes.flatMap(valueCompletions),
  ];
  const seen = new Set<string>();
  return completions.filter(({ label }) => !seen.has(label) && seen.add(label));
}

/** The schemas at a path of keys, with their branches. */
export const schemasAt = (path: readonly string[], schema: Schema): readonly Schema[] =>
  path.reduce<readonly Schema[]>(
    (here, step) => here.flatMap((node) => childSchemas(node, step)),
    alternatives(schema),
  );

/** A schema and all its branches. */
const alternatives = (node: Schema): readonly Schema[] => [
  node,
  ...[node.anyOf, node.oneOf, node.allOf, node.then, node.else].flatMap((some) => some ?? []).flatMap(alternatives),
];

function childSchemas(node: Schema, step: string): readonly Schema[] {
  if (step === "[]") return node.items ? alternatives(node.items) : [];
  const own = node.properties && Object.hasOwn(node.properties, step) ? node.properties[step] : undefined;
  if (own) return alternatives(own);
  return typeof node.additionalProperties === "object" ? alternatives(node.additionalProperties) : [];
}

const keyCompletions = ({ properties = {} }: Schema, beside: ReadonlySet<string>): readonly Completion[] =>
  Object.entries(properties)
    .filter(([key]) => !beside.has(key))
    .map(([label, inner]) => {
      const all = alternatives(inner);
      const about = all.find(({ description }) => description !== undefined)?.description;
      const example = all.flatMap(({ examples = [] }) => examples)[0];
      return {
        label,
        kind: "key",
        ...(about === undefined ? {} : { about }),
        ...(typeof example === "string" || typeof example === "number" ? { example: String(example) } : {}),
      };
    });

function valueCompletions(node: Schema): readonly Completion[] {
  const fixed = [...(node.enum ?? []), ...(node.const === undefined ? [] : [node.const])];
  const isBoolean = [node.type].flat().includes("boolean");
  return [
    ...[...fixed, ...(isBoolean ? [true, false] : [])].map(
      (value): Completion => ({ label: String(value), kind: "value" }),
    ),
    ...(node.examples ?? [])
      .filter((value) => typeof value === "string" || typeof value === "number")
      .map((value): Completion => ({ label: String(value), kind: "example" })),
  ];
}
