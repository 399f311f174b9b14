import fc from "fast-check";
import { parse, stringify } from "yaml";
import { jsonSchema } from "../../src/job/json-schema.ts";
import { HOSTILE_NUMBERS, texts } from "./hostile.ts";

/** As much of JSON Schema as the schemas of the job, the shop and the template use. */
export type Schema = {
  readonly type?: string | readonly string[];
  readonly enum?: readonly unknown[];
  readonly examples?: readonly unknown[];
  readonly anyOf?: readonly Schema[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: boolean | Schema;
  readonly items?: Schema;
};
/** A value for a place in a document: keys, and 0 for an item of a list; `around` is what stands there if nothing does, by depth. */
export type Graft = {
  readonly path: readonly (string | number)[];
  readonly value: unknown;
  readonly around?: readonly unknown[];
};

type Spot = { readonly path: Graft["path"]; readonly around: readonly unknown[]; readonly schema: Schema };

/** An example of a key; of a map, the examples of the keys that it needs, else of its first. */
function exampleOf(schema: Schema): unknown {
  if (schema.examples !== undefined) return schema.examples[0];
  if (schema.items !== undefined) return [exampleOf(schema.items)];
  if (schema.properties === undefined) return schema.anyOf?.map(exampleOf).find((one) => one !== undefined);
  const names = schema.required ?? Object.keys(schema.properties).slice(0, 1);
  return Object.fromEntries(names.map((name) => [name, exampleOf(schema.properties![name]!)]));
}

/** Every place of a schema that may hold something. */
function places(schema: Schema, path: Graft["path"] = [], outer: readonly unknown[] = []): readonly Spot[] {
  const around = path.length === 0 ? [] : [...outer, structuredClone(exampleOf(schema))];
  const inside = [
    ...Object.entries(schema.properties ?? {}).flatMap(([key, one]) => places(one, [...path, key], around)),
    ...(typeof schema.additionalProperties === "object"
      ? places(schema.additionalProperties, [...path, "1"], around)
      : []),
    ...(schema.items ? places(schema.items, [...path, 0], around) : []),
    ...(schema.anyOf ?? []).flatMap((one) => places(one, path, outer).filter((each) => each.path.length > path.length)),
  ];
  return path.length === 0 ? inside : [{ path, around: outer, schema }, ...inside];
}

/** A number of an example, larger or smaller: `42 mm` becomes `61 mm`. */
const scaled = (example: unknown, factor: number): unknown => {
  const number = (value: number) => Number((value * factor).toPrecision(3));
  if (typeof example === "number")
    return Number.isInteger(example) ? Math.max(1, Math.round(number(example))) : number(example);
  if (typeof example !== "string" || /^\d{4}-\d/.test(example)) return example;
  return example.replace(/^\d+(\.\d+)?/, (digits) => String(number(Number(digits))));
};

/** A value for a schema: what it names as an example, or near it; wild ones among them unless it should be calm. */
function valueFor(schema: Schema, calm: boolean): fc.Arbitrary<unknown> {
  const examples = schema.examples ?? [exampleOf(schema)];
  const given = structuredClone([...examples, ...(schema.enum ?? [])]).filter(
    (one) => one !== null && one !== undefined,
  );
  if (given.length === 0) return texts;
  const reach = calm ? 1.15 : 3;
  const factor = fc.double({ min: 1 / reach, max: reach, noNaN: true });
  const near = fc.tuple(fc.constantFrom(...given), factor).map(([one, by]) => scaled(one, by));
  const wild = calm ? 0 : 1;
  return fc.oneof(
    { weight: 6, arbitrary: fc.constantFrom(...given) },
    { weight: 4, arbitrary: near },
    { weight: wild, arbitrary: fc.constant(null) },
    { weight: wild, arbitrary: texts },
    { weight: wild, arbitrary: fc.constantFrom(...HOSTILE_NUMBERS) },
  );
}

/** Keys that need a file beside the job, or shut another out that every job has. */
const SHUTS_OUT = new Set([
  "product",
  "samples",
  "compare",
  "photos",
  "heads",
  "runs",
  "flow",
  "logo",
  "repeats",
  "replaces",
]);

/** Something for one place of a job, a shop or a template; `calm` is what a porter might type. */
export const graftFor = (what: "job" | "shop" | "template", calm = false): fc.Arbitrary<Graft> => {
  const all = places(jsonSchema(what) as Schema);
  const some = calm ? all.filter(({ path }) => !path.some((key) => SHUTS_OUT.has(String(key)))) : all;
  return fc
    .constantFrom(...some)
    .chain(({ path, around, schema }) => valueFor(schema, calm).map((value) => ({ path, around, value })));
};

type Tree = Record<string, unknown> | unknown[];
const isTree = (value: unknown): value is Tree => typeof value === "object" && value !== null;

/** A document with values put in their places; what is missing on the way is made. */
export function grafted(text: string, grafts: readonly Graft[]): string {
  const root = (parse(text, { schema: "failsafe" }) ?? {}) as Tree;
  for (const { path, value, around } of grafts) {
    let at = root as Record<string | number, unknown>;
    path.slice(0, -1).forEach((key, i) => {
      const example = around?.[i];
      if (!isTree(at[key]))
        at[key] = isTree(example) ? structuredClone(example) : typeof path[i + 1] === "number" ? [] : {};
      at = at[key] as Record<string | number, unknown>;
    });
    at[path.at(-1) as string | number] = value;
  }
  return stringify(root, { lineWidth: 0, aliasDuplicateObjects: false });
}

/** A subtree of a document cut out, doubled under another key, or put in another's place. */
export function transplanted(text: string, from: number, to: number, how: "cut" | "copy" | "swap"): string {
  const root = parse(text, { schema: "failsafe" }) as Tree;
  const spots: { tree: Record<string, unknown>; key: string }[] = [];
  const walk = (tree: Tree) => {
    for (const key of Object.keys(tree)) {
      spots.push({ tree: tree as Record<string, unknown>, key });
      const value = (tree as Record<string, unknown>)[key];
      if (isTree(value)) walk(value);
    }
  };
  walk(root);
  const [one, two] = [spots[from % spots.length]!, spots[to % spots.length]!];
  const copy = structuredClone(one.tree[one.key]);
  if (how === "swap") one.tree[one.key] = structuredClone(two.tree[two.key]);
  if (how === "cut") delete one.tree[one.key];
  else two.tree[two.key] = copy;
  return stringify(root, { lineWidth: 0, aliasDuplicateObjects: false });
}
