import { type Document, isMap, isScalar, isSeq, type Node, type Pair, type Scalar } from "yaml";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { type Lines, placeOf as placeInText, splitLines } from "../../diagnostics/line-counter.ts";
import { isDecimalComma, joinDecimal, joinDecimals, warnOfSentences } from "./commas.ts";
import { documentOf, firstLine, type Key, type Place, type Range } from "./places.ts";
import { quoted } from "./quoted.ts";
import type { SourceDocument, YamlValue } from "./source-document.ts";

/** The text being located, and the errors found so far. */
type Context = { readonly file: string; readonly text: string; readonly lines: Lines; readonly faults: Diagnostic[] };

const NONE: readonly Place[] = [];

/**
 * Turns the composed document into text values with their positions. Only an empty value counts as absent; `~` and `null` are
 * text like any other.
 */
export function locate(
  file: string,
  text: string,
  document: Document.Parsed | undefined,
): { readonly document: SourceDocument | undefined; readonly faults: readonly Diagnostic[] } {
  const context: Context = { file, text, lines: splitLines(text), faults: [] };
  const contents = (document?.contents ?? null) as Node | null;
  const top = { start: 0, end: 0 };
  const isEmpty = contents === null || (isScalar(contents) && textOf(contents).trim() === "");
  const root = isEmpty ? mapOf([], top, undefined, context) : placeOf(contents, top, undefined, context);
  if (isEmpty || isMap(contents)) return { document: documentOf(file, text, root), faults: context.faults };
  const end = Math.min(root.end, root.start + firstLine(text.slice(root.start)).length);
  const hint = "begin with job: and the ticket number";
  reportError(context, "source/not-a-map", "the file must be lines of `key: value`", { start: root.start, end }, hint);
  return { document: undefined, faults: context.faults };
}

function reportError(
  { file, faults }: Context,
  code: Diagnostic["code"],
  message: string,
  at: Range,
  hint: string,
): void {
  faults.push({ severity: "error", code, message, at: { file, start: at.start, end: at.end }, hint });
}

const textOf = (scalar: Scalar): string => String(scalar.value ?? "");

/** The range of a node, without the blanks and line ends behind it. */
function rangeOf(node: Node, text: string): Range {
  const [start, end] = node.range ?? [0, 0];
  return { start, end: Math.max(start, start + text.slice(start, end).trimEnd().length) };
}

/** The place of a node; an empty one takes the range `fallback`. */
function placeOf(node: Node | null, fallback: Range, key: Key | undefined, context: Context): Place {
  const range = node ? rangeOf(node, context.text) : fallback;
  if (isMap(node)) return mapOf(node.items as Pair[], range, key, context);
  if (isSeq(node)) return listOf(node.items as Node[], range, key, context, node.flow === true);
  const typed = isScalar(node) ? textOf(node) : "";
  const empty = typed.trim() === "";
  const { start, end } = empty && range.end === range.start ? fallback : range;
  const style = isScalar(node) ? (node.type as Scalar.Type) : undefined;
  return { start, end, key, style, value: empty ? undefined : typed, children: NONE };
}

/** Drops items with nothing typed after their dash, so that places and values have the same indices. */
function listOf(
  nodes: readonly Node[],
  range: Range,
  key: Key | undefined,
  context: Context,
  inBrackets: boolean,
): Place {
  const typed = nodes
    .map((item) => placeOf(item, range, undefined, context))
    .filter((item) => item.value !== undefined);
  const items = inBrackets ? joinDecimals(typed, context) : typed;
  if (inBrackets) warnOfSentences(items, context);
  const value = items.map((item) => item.value as YamlValue);
  return { start: range.start, end: range.end, key, style: undefined, value, children: items };
}

function mapOf(pairs: readonly Pair[], range: Range, key: Key | undefined, context: Context): Place {
  const children = new Map<string, Place>();
  const value: Record<string, YamlValue> = Object.create(null);
  let last = "";
  for (const pair of pairs) {
    const own = keyOf(pair, range, context);
    if (!own) continue;
    const before = pair.value === null ? children.get(last) : undefined;
    if (before && isDecimalComma(before, own.name)) {
      const joined = joinDecimal(before, own, own.name, context);
      children.set(last, joined);
      value[last] = joined.value as YamlValue;
      continue;
    }
    if (isDuplicate(own, children.get(own.name), context)) continue;
    if (pair.value === null) {
      if (before && continues(before, own.name)) {
        const joined = joinAtComma(before, own.end, context.text);
        children.set(last, joined);
        value[last] = joined.value as YamlValue;
        continue;
      }
      reportMissingColon(own, before, context);
      // Without the key no further error is made from its absence.
      if (before) continue;
    }
    const child = placeOf(pair.value as Node | null, own, own, context);
    children.set(own.name, child);
    last = own.name;
    if (child.value !== undefined) value[own.name] = child.value;
  }
  return { start: range.start, end: range.end, key, style: undefined, value, children: [...children.values()] };
}

function keyOf(pair: Pair, fallback: Range, context: Context): Key | undefined {
  const key = pair.key as Node | null;
  const range = key ? rangeOf(key, context.text) : fallback;
  const hint = "write it as key: value";
  if (!isScalar(key)) {
    reportError(context, "source/key", "a key must be a word, not a list or a map", range, hint);
    return undefined;
  }
  const name = String(key.value);
  if (name.trim() === "") {
    const colon = { start: range.start, end: range.start + 1 };
    reportError(context, "source/key", "there is no key before the colon", colon, hint);
  } else if (name === "<<") {
    const message = "`<<` merges other values in, which job files do not use";
    reportError(context, "source/merge-key", message, range, "write the keys out");
  } else if (name === "__proto__") {
    reportError(context, "source/key", "`__proto__` cannot be a key", range, "give it another name");
  } else return { start: range.start, end: range.end, name };
  return undefined;
}

function isDuplicate(own: Key, earlier: Place | undefined, context: Context): boolean {
  if (!earlier?.key) return false;
  const { line } = placeInText(context.lines, earlier.key.start);
  const message = `\`${own.name}\` stands here and in line ${line}`;
  reportError(context, "source/duplicate-key", message, own, "keep one of the two");
  return true;
}

/** Reports keys without a value in brackets, such as `{ valve:1.7 }` and `{ valve 1.7 }`, and texts with a comma. */
function reportMissingColon(own: Key, before: Place | undefined, context: Context): void {
  const { name } = own;
  const parts = /^([A-Za-z_]\w*)(?:\s*:\s*|\s+)(\S.*)$/.exec(name);
  if (!parts && before?.style === "PLAIN") {
    const whole = { start: before.start, end: own.end };
    const text = context.text.slice(whole.start, whole.end).replace(/\s+/g, " ");
    const message = `the comma parts this text, and \`${name}\` is taken for a key`;
    reportError(context, "source/no-colon", message, whole, `write ${quoted(text)}`);
    return;
  }
  const hint = `${parts ? `write ${parts[1]}: ${parts[2]}` : "write it as key: value"}; put a text that has a comma in quotes`;
  reportError(context, "source/no-colon", `\`${name}\` has no value: a colon and a blank are missing`, own, hint);
}

/** Whether words behind a comma continue the text before it; what looks like a number or a key lacks its colon instead. */
const continues = ({ style, value }: Place, words: string): boolean =>
  style === "PLAIN" && typeof value === "string" && /^\p{L}/u.test(value) && !/:|^\w+\s+[\d.]/.test(words);

/** Joins a text in brackets with the words behind its comma: `{ caption: Chamber 1, finished }`. */
const joinAtComma = (before: Place, end: number, text: string): Place => ({
  ...before,
  end,
  value: text.slice(before.start, end).replace(/\s+/g, " "),
});
