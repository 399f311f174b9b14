import type { z } from "zod";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Path, SourceDocument, YamlValue } from "../../parse/yaml/source-document.ts";
import { type KeyTree, keyAt, keyTree } from "../schema/keys.ts";
import { ownersByKey } from "./key-owners.ts";
import { locateErrors } from "./locate-errors.ts";
import { recoverValue } from "./recover-value.ts";
import { PARSE_OPTIONS, type SchemaError, toSchemaErrors } from "./schema-errors.ts";

/** A document against its schema. */
export type Validated<T> = {
  /** The whole of it, when nothing is wrong with it. */
  readonly value?: T;
  /** What is sound of it: for the rules between keys only. */
  readonly sound?: T;
  readonly diagnostics: readonly Diagnostic[];
};

/** What is wrong is taken out, what is then missing stood in for; where that will not do, the map that needs it goes too. */
const ROUNDS = 4;
const STAND_IN_ROUNDS = 2;

/** Checks a document against its schema: every fault, each with its place. `more` are faults the schema cannot see. */
export function validateDocument<T>(
  schema: z.ZodType<T>,
  located: SourceDocument,
  more: readonly SchemaError[] = [],
  parse = (value: YamlValue) => schema.safeParse(value, PARSE_OPTIONS),
): Validated<T> {
  let tree: KeyTree | undefined;
  const keys = () => {
    tree ??= keyTree(schema);
    return tree;
  };
  const exampleAt = (path: Path) => keyAt(keys(), path)?.example;
  const first = parse(located.value);
  const faults = [...(first.success ? [] : toSchemaErrors(first.error.issues, located.value, exampleAt)), ...more];
  if (first.success && faults.length === 0) return { value: first.data, sound: first.data, diagnostics: [] };

  let sound = first.success ? first.data : undefined;
  let value = located.value;
  let left = faults;
  for (let round = 0; round < ROUNDS && sound === undefined; round++) {
    value = recoverValue(value, left, round < STAND_IN_ROUNDS);
    const again = parse(value);
    if (again.success) sound = again.data;
    else left = toSchemaErrors(again.error.issues, value, exampleAt);
  }
  let known: ReturnType<typeof ownersByKey> | undefined;
  const homes = (key: string) => {
    known ??= ownersByKey(keys());
    return known.get(key) ?? [];
  };
  return { ...(sound === undefined ? {} : { sound }), diagnostics: locateErrors(faults, located, homes) };
}
