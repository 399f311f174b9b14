import type { z } from "zod";
import { didYouMean } from "../../diagnostics/did-you-mean.ts";
import { type Path, valueAt, type YamlValue } from "../../parse/yaml/source-document.ts";
import { inlineYaml, type YamlData } from "../../parse/yaml/stringify-yaml.ts";
import type { FaultParams } from "../schema/plain.ts";
import type { DeclaredUnits } from "../schema/quantities.ts";
import { exampleHint, textWithColon } from "./example-hint.ts";

type Issue = z.core.$ZodIssue;

/** A schema issue in the program's own words, not yet located in the file. */
export type SchemaError = FaultParams & {
  readonly kind: "missing" | "unknown" | "value";
  readonly path: Path;
  readonly message: string;
  /** The keys allowed in place of this one; unknown keys only. */
  readonly known?: readonly string[];
  /** The part of the text at `path`, when not the whole of it. */
  readonly within?: readonly [start: number, end: number];
};

/** Puts the known keys into the message of an unknown key: zod's issue has no other field for them. */
const withKnownKeys = (issue: z.core.$ZodRawIssue): string | undefined => {
  if (issue.code !== "unrecognized_keys") return undefined;
  const shape = (issue.inst as { _zod?: { def?: { shape?: object } } } | undefined)?._zod?.def?.shape;
  return Object.keys(shape ?? {}).join(" ");
};

/** Options of `safeParse`: those that `toSchemaErrors` depends on, and the units that bare numbers take. */
export const parseOptions = (units: DeclaredUnits) => ({ error: withKnownKeys, reportInput: false, units });

/** The example of the key at a path. */
type ExampleAt = (path: Path) => YamlData | undefined;

/** Flattens a schema's issues; of a union only those of the form that was meant. */
export function toSchemaErrors(issues: readonly Issue[], value: YamlValue, exampleAt: ExampleAt): SchemaError[] {
  return issues.flatMap((issue) => errorsOfIssue(issue, issue.path as Path, value, exampleAt));
}

function errorsOfIssue(issue: Issue, path: Path, root: YamlValue, exampleAt: ExampleAt): SchemaError[] {
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
        return [unknownWordError(path, String(value), only.values.map(String), others)];
      return meant.flatMap((inner) => errorsOfIssue(inner, [...path, ...(inner.path as Path)], root, exampleAt));
    }
    case "invalid_type":
      return [value === undefined ? missing(path) : wrongShape(path, [issue.expected], value, exampleAt)];
    case "invalid_value":
      if (value === undefined) return [missing(path)];
      return [
        typeof value === "object"
          ? wrongShape(path, ["string"], value, exampleAt)
          : unknownWordError(path, value, issue.values.map(String), []),
      ];
    case "too_small":
      return [emptyList(path, value, exampleAt)];
    default:
      return [{ kind: "value", path, message: `${describePath(path)} does not fit`, code: "job/value" }];
  }
}

/** Whether a form of a union does not fit the shape of the value, such as a map where it takes a single value. */
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

/** Hints for missing keys that every file needs. */
const MISSING_HINTS: Readonly<Record<string, string>> = {
  job: 'write the ticket number: job: "2026-014"',
  issued: "write the date of the sheet: issued: 2026-03-18",
  customer: "write whose head it is: customer: { name: … }",
  head: "write what you call the head: head: { name: … }",
  stages: "write the head through the work, oldest first: stages: [ { name: As received } ]",
};

/** The error of a missing key. */
export function missing(path: Path): SchemaError {
  const key = String(path.at(-1));
  const hint = path.length === 1 ? MISSING_HINTS[key] : undefined;
  return { kind: "missing", path, message: `missing \`${key}\``, code: "job/missing", hint };
}

function emptyList(path: Path, value: YamlValue | undefined, exampleAt: ExampleAt): SchemaError {
  const example = exampleHint(path, ["a list"], value ?? "", exampleAt(path));
  const hint = example && `${example}; or leave the key out`;
  return { kind: "value", path, message: `${describePath(path)} is empty`, code: "job/empty", hint };
}

const SHAPES: Readonly<Record<string, string>> = {
  string: "a single value",
  number: "a single value",
  boolean: "true or false",
  array: "a list",
  object: "a map of keys",
  record: "a map of keys",
};

/** Names of shapes; "a single value" covers true or false. */
const shapeNames = (expected: readonly string[]): string[] => [
  ...new Set(
    expected
      .filter((shape) => shape !== "boolean" || !expected.includes("string"))
      .map((shape) => SHAPES[shape] ?? shape),
  ),
];

function wrongShape(path: Path, expected: readonly string[], value: YamlValue, exampleAt: ExampleAt): SchemaError {
  const shapes = shapeNames(expected);
  const text = textWithColon(value);
  if (text !== undefined && shapes.includes("a single value") && typeof path.at(-1) === "number") {
    const message = `the colon in this text makes a key of \`${text.split(":")[0]}\``;
    return { kind: "value", path, message, code: "job/shape", hint: `write ${inlineYaml(text)}` };
  }
  const dash = shapes.includes("a list") && shapes.length === 1 ? "begin each entry with a dash" : undefined;
  const example = exampleHint(path, shapes, value, exampleAt(path));
  const hint = dash && example ? `${dash}, or ${example}` : (example ?? dash);
  return {
    kind: "value",
    path,
    message: `${describePath(path)} must be ${shapes.join(" or ")}`,
    code: "job/shape",
    hint,
  };
}

/** Other words for yes and no. */
const ANSWERS: Readonly<Record<string, string>> = { true: "yes", on: "yes", y: "yes", false: "no", off: "no", n: "no" };

/** The error of a word outside a closed list; `others` are the shapes allowed beside it. */
function unknownWordError(path: Path, typed: string, words: readonly string[], others: readonly string[]): SchemaError {
  const shapes = shapeNames(others.filter((shape) => shape === "object" || shape === "array"));
  const near = didYouMean(typed, words) ?? words.find((one) => one === ANSWERS[typed.toLowerCase()]);
  const quoted = words.map((one) => `\`${one}\``).join(" or ");
  return {
    kind: "value",
    path,
    message:
      shapes.length > 0
        ? `${describePath(path)} must be ${quoted}, or ${shapes.join(" or ")}`
        : `\`${typed}\` is not one of ${words.join(", ")}`,
    code: "job/word",
    hint: near === undefined ? undefined : `did you mean \`${near}\`?`,
  };
}

/** "`throat`", or "an entry of `stages`". */
function describePath(path: Path): string {
  const last = path.at(-1);
  if (last === undefined) return "the file";
  if (typeof last === "string") return `\`${last}\``;
  const key = path.findLast((part) => typeof part === "string");
  return key === undefined ? "an entry" : `an entry of \`${key}\``;
}
