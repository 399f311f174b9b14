import { z } from "zod";
import type { YamlData } from "../../parse/yaml/stringify-yaml.ts";
import type { Kind } from "../../units/table.ts";

/** Parts of the shop's recipe that `report.hold_back` withholds, each as a whole. */
type Withheld = "pinch" | "sections" | "seat" | "portVolume";
/** Whether a key travels inside a sheet; "rewritten": `embed/job-copy.ts` makes its value anew. */
type Exported = boolean | Withheld | "rewritten";
/** What parsing makes of a single value: text, a plain number, a quantity, or the rows of a table. */
type Form = {
  readonly text?: true;
  readonly number?: true;
  readonly kind?: Kind;
  readonly table?: "sections" | "profile" | "valveTrain";
};

declare const STATED: unique symbol;
/** A schema under a key, with the metadata that `key` attaches. */
type Key<S extends z.ZodType = z.ZodType> = S & { readonly [STATED]: true };

/** An optional key; editors and hints show its `example`. */
export const key = <S extends z.ZodType>(exported: Exported, schema: S, example?: YamlData) =>
  requiredKey(exported, schema.optional(), example);

/** A key that a map needs. */
export function requiredKey<S extends z.ZodType>(exported: Exported, schema: S, example?: YamlData): Key<S> {
  // `schema.meta()` would clone each schema.
  z.globalRegistry.add(schema, { ...z.globalRegistry.get(schema), exported, example });
  return schema as Key<S>;
}

/** A map of these keys and no others; a key made without `exported` does not compile. */
export const keys = <S extends Readonly<Record<string, Key>>>(shape: S) => z.strictObject(shape);

/** The tree under a key, with the key's metadata. */
export type KeyNode = KeyTree & { readonly exported?: Exported; readonly example?: YamlData };
/** A schema as plain data: a union's forms merged, a list replaced by its items. */
export type KeyTree = Form & {
  readonly keys: ReadonlyMap<string, KeyNode>;
  /** The tree under any other key. */
  readonly record?: KeyTree;
};

type Meta = { readonly form?: Form } & Pick<KeyNode, "exported" | "example">;
const metaOf = (schema: z.core.$ZodType) => (z.globalRegistry.get(schema) ?? {}) as Meta;

/** The key tree of a schema. */
export function keyTree(schema: z.core.$ZodType): KeyTree {
  const { form } = metaOf(schema);
  if (form !== undefined) return { ...form, keys: new Map() };
  const { def } = (schema as z.core.$ZodTypes)._zod;
  switch (def.type) {
    case "optional":
      return keyTree(def.innerType);
    case "pipe":
      return keyTree(def.in);
    case "array":
      return keyTree(def.element);
    case "record":
      return { keys: new Map(), record: keyTree(def.valueType) };
    case "union": {
      const options = def.options.map(keyTree);
      return Object.assign({}, ...options, { keys: new Map(options.flatMap(({ keys }) => [...keys])) });
    }
    case "object": {
      const inner = Object.entries(def.shape).map(([name, one]) => {
        const { exported, example } = metaOf(one);
        return [name, { ...keyTree(one), exported, example }] as const;
      });
      // The catchall of a strict map is `never`.
      const other = def.catchall?._zod.def.type === "never" ? undefined : def.catchall;
      return { keys: new Map(inner), ...(other && { record: keyTree(other) }) };
    }
    default:
      return { keys: new Map() };
  }
}

/** The key at a path; list indices are skipped. */
export function keyAt(tree: KeyTree, path: readonly (string | number)[]): KeyNode | undefined {
  let node: KeyNode | undefined = tree;
  for (const part of path) {
    if (typeof part === "string") node = node && (node.keys.get(part) ?? node.record);
  }
  return node;
}
