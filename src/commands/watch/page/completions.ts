import type { PlaceInYaml } from "./place-in-yaml.ts";

/** The parts of a JSON Schema that completion asks for. */
export type Schema = {
  readonly description?: string;
  readonly type?: string | readonly string[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly additionalProperties?: boolean | Schema;
  readonly items?: Schema;
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
  readonly allOf?: readonly Schema[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly examples?: readonly unknown[];
};

/** Something that may stand at the cursor. */
export type Offer = {
  readonly label: string;
  readonly kind: "key" | "value" | "example";
  readonly about?: string;
  readonly example?: string;
};

/** What may stand at a place: keys that are not there yet, or values and examples of the key before it. */
export function offersAt({ path, kind, beside }: PlaceInYaml, schema: Schema): readonly Offer[] {
  const nodes = path.reduce<readonly Schema[]>(
    (here, step) => here.flatMap((node) => into(node, step)),
    alternatives(schema),
  );
  const offers = [...(kind === "key" ? nodes.flatMap((node) => keysOf(node, beside)) : []), ...nodes.flatMap(valuesOf)];
  const seen = new Set<string>();
  return offers.filter(({ label }) => !seen.has(label) && seen.add(label));
}

/** A schema and all that it may be instead. */
const alternatives = (node: Schema): readonly Schema[] => [
  node,
  ...[...(node.anyOf ?? []), ...(node.oneOf ?? []), ...(node.allOf ?? [])].flatMap(alternatives),
];

function into(node: Schema, step: string): readonly Schema[] {
  if (step === "[]") return node.items ? alternatives(node.items) : [];
  const own = node.properties && Object.hasOwn(node.properties, step) ? node.properties[step] : undefined;
  if (own) return alternatives(own);
  return typeof node.additionalProperties === "object" ? alternatives(node.additionalProperties) : [];
}

const keysOf = ({ properties = {} }: Schema, beside: ReadonlySet<string>): readonly Offer[] =>
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

function valuesOf(node: Schema): readonly Offer[] {
  const fixed = [...(node.enum ?? []), ...(node.const === undefined ? [] : [node.const])];
  const isBoolean = [node.type].flat().includes("boolean");
  return [
    ...[...fixed, ...(isBoolean ? [true, false] : [])].map((value): Offer => ({ label: String(value), kind: "value" })),
    ...(node.examples ?? [])
      .filter((value) => typeof value === "string" || typeof value === "number")
      .map((value): Offer => ({ label: String(value), kind: "example" })),
  ];
}
