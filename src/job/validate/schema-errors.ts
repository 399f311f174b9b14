import type { z } from "zod";
import { didYouMean } from "../../diagnostics/did-you-mean.ts";
import type { Path, YamlValue } from "../../parse/yaml/source-document.ts";
import { inlineYaml, type YamlData } from "../../parse/yaml/stringify-yaml.ts";
import type { FaultParams } from "../schema/plain.ts";

type Issue = z.core.$ZodIssue;

/** A schema's complaint in our own words, before it is placed in the file. */
export type SchemaError = FaultParams & {
  readonly kind: "missing" | "unknown" | "value";
  readonly path: Path;
  readonly message: string;
  /** The keys that would do where this one stands; unknown keys only. */
  readonly known?: readonly string[];
  /** Where in the text at `path`, when not the whole of it. */
  readonly within?: readonly [start: number, end: number];
};

/** zod names an unknown key but not the known ones. An issue carries only text, so the known keys ride in its message. */
const withKnownKeys = (issue: z.core.$ZodRawIssue): string | undefined => {
  if (issue.code !== "unrecognized_keys") return undefined;
  const shape = (issue.inst as { _zod?: { def?: { shape?: object } } } | undefined)?._zod?.def?.shape;
  return Object.keys(shape ?? {}).join(" ");
};

/** Options of `safeParse` that `faultsOf` depends on. */
export const PARSE_OPTIONS = { error: withKnownKeys, reportInput: false } as const;

/** What one writes under the key at a path. */
type ExampleAt = (path: Path) => YamlData | undefined;

/** What a schema found wrong with a value, flattened: of several forms only the one that was meant. */
export function toSchemaErrors(issues: readonly Issue[], value: YamlValue, exampleAt: ExampleAt): SchemaError[] {
  return issues.flatMap((issue) => faultsOfIssue(issue, issue.path as Path, value, exampleAt));
}

function faultsOfIssue(issue: Issue, path: Path, root: YamlValue, exampleAt: ExampleAt): SchemaError[] {
  const value = valueAt(root, path);
  switch (issue.code) {
    case "custom": {
      const {
        code = "job/value",
        hint,
        start,
        end,
      } = (issue.params ?? {}) as Partial<FaultParams & { start: number; end: number }>;
      const within = start === undefined || end === undefined ? undefined : ([start, end] as const);
      return [{ kind: "value", path, message: issue.message, code, hint, within }];
    }
    case "unrecognized_keys": {
      const known = issue.message.split(" ").filter((key) => key !== "");
      return issue.keys.map((key) => ({
        kind: "unknown",
        path: [...path, key],
        message: `unknown key \`${key}\``,
        code: "job/unknown-key",
        known,
      }));
    }
    case "invalid_union": {
      if (value === undefined) return [missing(path)];
      const meant = issue.errors.filter((branch) => !isWrongShape(branch, value)).at(-1);
      const others = issue.errors.filter((branch) => branch !== meant).flatMap(expectedShapes);
      if (!meant) return [wrongShape(path, others, value, exampleAt)];
      const [only] = meant;
      if (only?.code === "invalid_value" && only.path.length === 0 && meant.length === 1)
        return [notOneOf(path, String(value), only.values.map(String), others)];
      return meant.flatMap((inner) => faultsOfIssue(inner, [...path, ...(inner.path as Path)], root, exampleAt));
    }
    case "invalid_type":
      return [value === undefined ? missing(path) : wrongShape(path, [issue.expected], value, exampleAt)];
    case "invalid_value":
      if (value === undefined) return [missing(path)];
      return [
        typeof value === "object"
          ? wrongShape(path, ["string"], value, exampleAt)
          : notOneOf(path, value, issue.values.map(String), []),
      ];
    case "too_small":
      return [{ kind: "value", path, message: `${named(path)} is empty`, code: "job/empty" }];
    default:
      return [{ kind: "value", path, message: `${named(path)} does not fit`, code: "job/value" }];
  }
}

/** Whether a form does not fit what was written at all: a map where it takes a single value, and the like. */
const isWrongShape = (branch: readonly Issue[], value: YamlValue): boolean =>
  branch.some(
    (issue) =>
      issue.path.length === 0 &&
      (issue.code === "invalid_type" ||
        (issue.code === "invalid_value" && typeof value === "object") ||
        (issue.code === "invalid_union" && issue.errors.every((inner) => isWrongShape(inner, value)))),
  );

const expectedShapes = (branch: readonly Issue[]): string[] =>
  branch.flatMap((issue) => {
    if (issue.path.length > 0) return [];
    if (issue.code === "invalid_type") return [issue.expected];
    if (issue.code === "invalid_value") return ["string"];
    return issue.code === "invalid_union" ? issue.errors.flatMap(expectedShapes) : [];
  });

/** What to write for keys that every file needs. */
const MISSING_HINTS: Readonly<Record<string, string>> = {
  job: 'write the ticket number: job: "2026-014"',
  issued: "write the date of the sheet: issued: 2026-03-18",
  customer: "write whose head it is: customer: { name: … }",
  head: "write what you call the head: head: { name: … }",
  stages: "write the head through the work, oldest first: stages: [ { name: As received } ]",
};

/** A key that is not there. */
export function missing(path: Path): SchemaError {
  const key = String(path.at(-1));
  const hint = path.length === 1 ? MISSING_HINTS[key] : undefined;
  return { kind: "missing", path, message: `missing \`${key}\``, code: "job/missing", hint };
}

const SHAPES: Readonly<Record<string, string>> = {
  string: "a single value",
  number: "a single value",
  boolean: "true or false",
  array: "a list",
  object: "a map of keys",
  record: "a map of keys",
};

/** A single value may be true or false as well: no need to say so. */
const shapeNames = (expected: readonly string[]): string[] => [
  ...new Set(
    expected
      .filter((shape) => shape !== "boolean" || !expected.includes("string"))
      .map((shape) => SHAPES[shape] ?? shape),
  ),
];

function wrongShape(path: Path, expected: readonly string[], value: YamlValue, exampleAt: ExampleAt): SchemaError {
  const shapes = shapeNames(expected);
  const dash = shapes.includes("a list") && shapes.length === 1 ? "begin each entry with a dash" : undefined;
  const example = exampleHint(path, shapes, value, exampleAt(path));
  const hint = dash && example ? `${dash}, or ${example}` : (example ?? dash);
  return { kind: "value", path, message: `${named(path)} must be ${shapes.join(" or ")}`, code: "job/shape", hint };
}

/** What to write instead: the key's example, with the word that was typed where it most likely belongs. */
function exampleHint(path: Path, shapes: readonly string[], value: YamlValue, example?: YamlData): string | undefined {
  const key = path.at(-1);
  if (typeof key !== "string" || example === undefined) return undefined;
  const fits = Array.isArray(example) ? "a list" : typeof example === "object" ? "a map of keys" : "a single value";
  // A table wants lines of its own.
  if (!shapes.includes(fits) || JSON.stringify(example).includes("\\n")) return undefined;
  return `write ${key}: ${inlineYaml(withTyped(example, value))}`;
}

/** The key of a map that a word stands for; none where it is not plain. */
function withTyped(example: YamlData, value: YamlValue): YamlData {
  const isWord = (one: unknown) => typeof one === "string" && /^\p{L}/u.test(one) && one.length <= 40;
  if (!isWord(value) || typeof example !== "object" || Array.isArray(example)) return example;
  const [first] = Object.entries(example);
  return first && isWord(first[1]) && first[0] === "name" ? { [first[0]]: value as string } : example;
}

/** A word that is none of those there are; `others` are the shapes that would do as well. */
function notOneOf(path: Path, typed: string, words: readonly string[], others: readonly string[]): SchemaError {
  const shapes = shapeNames(others.filter((shape) => shape === "object" || shape === "array"));
  const near = didYouMean(typed, words);
  const quoted = words.map((one) => `\`${one}\``).join(" or ");
  return {
    kind: "value",
    path,
    message:
      shapes.length > 0
        ? `${named(path)} must be ${quoted}, or ${shapes.join(" or ")}`
        : `\`${typed}\` is not one of ${words.join(", ")}`,
    code: "job/word",
    hint: near === undefined ? undefined : `did you mean \`${near}\`?`,
  };
}

/** "`throat`", or "an entry of `stages`". */
function named(path: Path): string {
  const last = path.at(-1);
  if (last === undefined) return "the file";
  if (typeof last === "string") return `\`${last}\``;
  const key = path.findLast((part) => typeof part === "string");
  return key === undefined ? "an entry" : `an entry of \`${key}\``;
}

/** What stands at a path, if anything does. */
export function valueAt(root: YamlValue, path: Path): YamlValue | undefined {
  let value: YamlValue | undefined = root;
  for (const part of path) {
    if (typeof value !== "object" || value === null) return undefined;
    value = Object.hasOwn(value, part) ? (value as Record<string | number, YamlValue>)[part] : undefined;
  }
  return value;
}
