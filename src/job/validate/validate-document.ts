import type { z } from "zod";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Located, Path, Plain } from "../../parse/yaml/source-document.ts";
import { type KeyTree, keyAt, keyTree } from "../schema/keys.ts";
import { homesOfKeys } from "./key-owners.ts";
import { placeFaults } from "./locate-errors.ts";
import { salvage } from "./recover-value.ts";
import { type Fault, faultsOf, PARSE_OPTIONS } from "./schema-errors.ts";

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
export function readValidated<T>(
  schema: z.ZodType<T>,
  located: Located,
  more: readonly Fault[] = [],
  parse = (value: Plain) => schema.safeParse(value, PARSE_OPTIONS),
): Validated<T> {
  let tree: KeyTree | undefined;
  const keys = () => {
    tree ??= keyTree(schema);
    return tree;
  };
  const exampleAt = (path: Path) => keyAt(keys(), path)?.example;
  const first = parse(located.value);
  const faults = [...(first.success ? [] : faultsOf(first.error.issues, located.value, exampleAt)), ...more];
  if (first.success && faults.length === 0) return { value: first.data, sound: first.data, diagnostics: [] };

  let sound = first.success ? first.data : undefined;
  let value = located.value;
  let left = faults;
  for (let round = 0; round < ROUNDS && sound === undefined; round++) {
    value = salvage(value, left, round < STAND_IN_ROUNDS);
    const again = parse(value);
    if (again.success) sound = again.data;
    else left = faultsOf(again.error.issues, value, exampleAt);
  }
  let known: ReturnType<typeof homesOfKeys> | undefined;
  const homes = (key: string) => {
    known ??= homesOfKeys(keys());
    return known.get(key) ?? [];
  };
  return { ...(sound === undefined ? {} : { sound }), diagnostics: placeFaults(faults, located, homes) };
}
