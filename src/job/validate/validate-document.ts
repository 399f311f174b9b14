import type { z } from "zod";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Path, SourceDocument, YamlValue } from "../../parse/yaml/source-document.ts";
import { keyAt, keyTree } from "../schema/keys.ts";
import type { DeclaredUnits } from "../schema/quantities.ts";
import { locateErrors } from "./locate-errors.ts";
import { recoverValue } from "./recover-value.ts";
import { parseOptions, type SchemaError, toSchemaErrors } from "./schema-errors.ts";

/** The result of validating a document. */
type Validated<T> = {
  /** The whole value, without errors only. */
  readonly value?: T;
  /** Its valid part, for the rules between keys only. */
  readonly sound?: T;
  readonly diagnostics: readonly Diagnostic[];
};

/** Rounds of removing what is refused; up to the last of `STAND_IN_ROUNDS` missing keys get stand-ins, later their maps go too. */
const ROUNDS = 4;
const STAND_IN_ROUNDS = 2;

/**
 * Validates a document whose bare numbers take these units: every error, each with its place. `more` are errors that the
 * schema cannot find.
 */
export function validateDocument<T>(
  schema: z.ZodType<T>,
  located: SourceDocument,
  units: DeclaredUnits = {},
  more: readonly SchemaError[] = [],
): Validated<T> {
  const parse = (value: YamlValue) => schema.safeParse(value, parseOptions(units));
  const first = parse(located.value);
  if (first.success && more.length === 0) return { value: first.data, sound: first.data, diagnostics: [] };

  const tree = keyTree(schema);
  const exampleAt = (path: Path) => keyAt(tree, path)?.example;
  const faults = [...(first.success ? [] : toSchemaErrors(first.error.issues, located.value, exampleAt)), ...more];
  let sound = first.success ? first.data : undefined;
  let value = located.value;
  let left = faults;
  for (let round = 0; round < ROUNDS && sound === undefined; round++) {
    value = recoverValue(value, left, round < STAND_IN_ROUNDS);
    const again = parse(value);
    if (again.success) sound = again.data;
    else left = toSchemaErrors(again.error.issues, value, exampleAt);
  }
  return { ...(sound === undefined ? {} : { sound }), diagnostics: locateErrors(faults, located, tree) };
}
