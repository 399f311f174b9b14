import { KINDS, type Kind, unitsOf } from "../units/table.ts";

/** A node of a JSON Schema. */
export type Node = { readonly [key: string]: unknown };

/** The sign of a quantity: most lengths are above zero, a cut or a margin may be zero, a centre may lie on either side. */
export type Sign = "positive" | "zero or more" | "any";

/** What an editor should know of a single value beyond its type. */
export type EditorForm =
  | "text"
  | "count"
  | "number"
  | "flag"
  | "date"
  | "block"
  | { readonly kind: Kind; readonly sign: Sign; readonly inherited: boolean };

/** Keeps a language server from offering a schema as an item to add to a list; accepts everything. */
export const UNLISTED = { anyOf: [true] } as const;

/**
 * Values that are accepted but not to be offered: a language server offers what `type` and `enum` name, and does not look into
 * a negation. A key with nothing behind its colon counts as absent; a name may be `true` or `no`.
 */
const UNSAID: Readonly<Record<string, Node>> = {
  empty: { not: { not: { type: "null" } }, ...UNLISTED },
  word: { not: { not: { type: "boolean" } }, ...UNLISTED },
  flag: { not: { not: { enum: ["true", "false"] } }, ...UNLISTED },
};

/** The shared parts of the schemas, by name. */
export const definitions = (): Readonly<Record<string, Node>> => ({
  ...UNSAID,
  ...Object.fromEntries(
    KINDS.flatMap((kind) =>
      SIGNS.flatMap((sign) =>
        [true, false].map((inherited) => {
          const form = { kind, sign, inherited };
          return [nameOf(form), quantityNode(form)];
        }),
      ),
    ),
  ),
});

type Quantity = Exclude<EditorForm, string>;
const SIGNS: readonly Sign[] = ["positive", "zero or more", "any"];
const nameOf = ({ kind, sign, inherited }: Quantity) =>
  [kind, { positive: "", "zero or more": "-or-zero", any: "-signed" }[sign], inherited ? "-inherited" : ""].join("");

export const refer = (name: string): Node => ({ $ref: `#/$defs/${name}` });

const DATE = "^\\s*[1-9]\\d{3}-(0[1-9]|1[0-2])-(0[1-9]|[12]\\d|3[01])\\s*$";

/** The JSON Schema of a single value; every pattern accepts at least what the program accepts. */
export function editorNode(form: EditorForm, blocks: readonly string[]): Node {
  if (typeof form === "object") return refer(nameOf(form));
  switch (form) {
    case "text":
      return { anyOf: [{ type: ["string", "number"] }, refer("word")] };
    case "block":
      return { type: "string", ...(blocks.length > 0 ? { enum: blocks } : {}) };
    case "count":
      return { type: ["integer", "string"], minimum: 1, pattern: "^\\s*0*[1-9]\\d*\\s*$" };
    case "number":
      return { type: ["number", "string"], exclusiveMinimum: 0, pattern: "^\\s*[^-\\s]" };
    case "flag":
      return { anyOf: [{ type: "boolean" }, refer("flag")] };
    case "date":
      return { type: "string", pattern: DATE };
  }
}

const NUMBER = "(?:(?:\\d+[\\s-]+)?\\d+/\\d+|\\d+(?:\\.\\d*)?|\\.\\d+)(?![\\d./])";
/** A unit with a blank, a raised digit or a degree sign in it: which one it is, only the program knows. */
const UNUSUAL_UNIT = "(?=\\S).*[^!-\\]_-~].*";

function quantityNode({ kind, sign, inherited }: Quantity): Node {
  // A temperature below zero is one above absolute zero.
  const signed = sign === "any" || kind === "temperature";
  const limit = signed ? {} : sign === "positive" ? { exclusiveMinimum: 0 } : { minimum: 0 };
  const percent = kind === "ratio" ? { exclusiveMaximum: 1, ...(signed ? { exclusiveMinimum: -1 } : {}) } : {};
  const names = unitsOf(kind).flatMap(({ name, aliases }) => (name === "plain" ? [] : [name, ...aliases]));
  const units = [...names.map(anyCase), UNUSUAL_UNIT].join("|");
  const absent = inherited ? `|${anyCase("not measured")}` : "";
  const pattern = `^\\s*(?:${signed ? "[+-]?" : "\\+?"}${NUMBER}\\s*(?:${units})?\\.?${absent})\\s*$`;
  return { type: ["number", "string"], ...limit, ...percent, pattern, ...UNLISTED };
}

/** A pattern of a text in any case. */
const anyCase = (text: string) =>
  text.replace(/[/().]/g, "\\$&").replace(/[a-z]/gi, (letter) => `[${letter.toUpperCase()}${letter.toLowerCase()}]`);
