import { type Document, isMap, isScalar, isSeq, type Node, type Pair, type Scalar } from "yaml";
import type { Diagnostic, Span } from "../diagnostics/diagnostic.ts";
import { linesOf, placeOf as placeInText } from "../diagnostics/line-counter.ts";
import type { Located, Path, Plain } from "./located.ts";
import { literalOffsets, type OffsetMap, spanInLine, spanInLiteral } from "./text-offsets.ts";

/** A value with its place; `value` undefined where nothing was typed. */
type Place = {
  readonly span: Span;
  readonly key?: Span;
  readonly scalar?: Scalar.Parsed;
  readonly value: Plain | undefined;
  readonly children: ReadonlyMap<string, Place>;
};

const NONE: ReadonlyMap<string, Place> = new Map();

/**
 * The composed document as plain text values with their places. Only a value with nothing typed counts as absent; `~` and
 * `null` are text like any other.
 */
export function locate(
  file: string,
  text: string,
  document: Document.Parsed | undefined,
): { readonly document: Located | undefined; readonly faults: readonly Diagnostic[] } {
  const faults: Diagnostic[] = [];
  const lines = linesOf(text);
  const fault = (code: Diagnostic["code"], message: string, at: Span, hint: string) =>
    faults.push({ severity: "error", code, message, at, hint });
  const spanOf = (node: Node): Span => {
    const [start, end] = node.range ?? [0, 0];
    return { file, start, end: Math.max(start, start + text.slice(start, end).trimEnd().length) };
  };

  function keyOf(pair: Pair, fallback: Span): { name: string; span: Span } | undefined {
    const key = pair.key as Node | null;
    const span = key ? spanOf(key) : fallback;
    const hint = "write it as key: value";
    if (!isScalar(key)) {
      fault("source/key", "a key must be a word, not a list or a map", span, hint);
      return undefined;
    }
    const name = String(key.value);
    if (name.trim() === "")
      fault("source/key", "there is no key before the colon", { ...span, end: span.start + 1 }, hint);
    else if (name === "<<")
      fault("source/merge-key", "`<<` merges other values in, which job files do not use", span, "write the keys out");
    else if (name === "__proto__") fault("source/key", "`__proto__` cannot be a key", span, "give it another name");
    else return { name, span };
    return undefined;
  }

  /** In brackets `{ valve:1.7 }` and `{ valve 1.7 }` are keys without a value, which would be dropped in silence. */
  function noColon(name: string, span: Span) {
    const parts = /^([A-Za-z_]\w*)(?:\s*:\s*|\s+)(\S.*)$/.exec(name);
    const hint = `${parts ? `write ${parts[1]}: ${parts[2]}` : "write it as key: value"}; put a text that has a comma in quotes`;
    fault("source/no-colon", `\`${name}\` has no value: a colon and a blank are missing`, span, hint);
  }

  /** `{ caption: Chamber 1, finished }`: words after a text in brackets belong to it, comma and all. */
  function withComma(before: Place, more: Span): Place {
    const span = { ...before.span, end: more.end };
    return { ...before, span, value: text.slice(span.start, span.end).replace(/\s+/g, " ") };
  }

  function mapOf(pairs: readonly Pair[], span: Span, key: Span | undefined): Place {
    const children = new Map<string, Place>();
    const value: Record<string, Plain> = Object.create(null);
    let last: string | undefined;
    for (const pair of pairs) {
      const own = keyOf(pair, span);
      if (!own) continue;
      const earlier = children.get(own.name)?.key;
      if (earlier) {
        const { line } = placeInText(lines, earlier.start);
        fault(
          "source/duplicate-key",
          `\`${own.name}\` stands here and in line ${line}`,
          own.span,
          "keep one of the two",
        );
        continue;
      }
      if (pair.value === null) {
        const before = last === undefined ? undefined : children.get(last);
        if (last !== undefined && before && continues(before, own.name)) {
          const joined = withComma(before, own.span);
          children.set(last, joined);
          value[last] = joined.value as Plain;
          continue;
        }
        noColon(own.name, own.span);
      }
      const child = placeOf(pair.value as Node | null, own.span, own.span);
      children.set(own.name, child);
      last = own.name;
      if (child.value !== undefined) value[own.name] = child.value;
    }
    return { span, ...(key && { key }), value, children };
  }

  function placeOf(node: Node | null, fallback: Span, key?: Span): Place {
    const span = node ? spanOf(node) : fallback;
    if (isMap(node)) return mapOf(node.items as Pair[], span, key);
    if (isSeq(node)) {
      // An item with nothing typed after its dash is no item, so that places keep in step with values.
      const items = node.items.map((item) => placeOf(item as Node, span)).filter((item) => item.value !== undefined);
      const children = new Map(items.map((item, index) => [String(index), item]));
      return { span, ...(key && { key }), value: items.map((item) => item.value as Plain), children };
    }
    const typed = isScalar(node) ? String(node.value ?? "") : "";
    const empty = typed.trim() === "";
    return {
      span: empty && span.end === span.start ? fallback : span,
      ...(key && { key }),
      ...(isScalar(node) && { scalar: node as Scalar.Parsed }),
      value: empty ? undefined : typed,
      children: NONE,
    };
  }

  const contents = (document?.contents ?? null) as Node | null;
  const start: Span = { file, start: 0, end: 0 };
  const root =
    contents === null || (isScalar(contents) && String(contents.value ?? "").trim() === "")
      ? mapOf([], start, undefined)
      : placeOf(contents, start);
  if ((contents !== null && root.children === NONE) || isSeq(contents)) {
    const first = text.slice(root.span.start).split(/\r?\n/)[0]!.length;
    fault(
      "source/not-a-map",
      "the file must be lines of `key: value`",
      { ...root.span, end: Math.min(root.span.end, root.span.start + first) },
      "begin with job: and the ticket number",
    );
    return { document: undefined, faults };
  }
  return { document: located(file, text, root), faults };
}

/** Words can go on behind a comma; what looks like a number or a key lacks its colon instead. */
const continues = (before: Place, words: string) =>
  before.scalar?.type === "PLAIN" &&
  typeof before.value === "string" &&
  /^\p{L}/u.test(before.value) &&
  !/:|^\w+\s+[\d.]/.test(words);

function located(file: string, text: string, root: Place): Located {
  /** The places along a path, as far as there are any. */
  const along = (path: Path): { places: readonly Place[]; whole: boolean } => {
    const places = [root];
    for (const step of path) {
      const next = places.at(-1)!.children.get(String(step));
      if (!next) return { places, whole: false };
      places.push(next);
    }
    return { places, whole: true };
  };
  const firstKey = (place: Place) => [...place.children.values()].find((child) => child.key)?.key;
  /** What to point at for something that is missing under a place: its key, else its first key, else its first line. */
  const owner = (places: readonly Place[]): Span => {
    const place = places.at(-1)!;
    const { start, end } = place.span;
    return (
      place.key ??
      firstKey(place) ?? { file, start, end: Math.min(end, start + text.slice(start).split(/\r?\n/)[0]!.length) }
    );
  };
  // Many places are asked for in one table.
  const maps = new Map<Scalar.Parsed, OffsetMap>();
  const mapFor = (scalar: Scalar.Parsed): OffsetMap => {
    const known = maps.get(scalar) ?? literalOffsets(text, scalar.range[0], String(scalar.value ?? ""));
    maps.set(scalar, known);
    return known;
  };
  const span = (path: Path): Span => {
    const { places, whole } = along(path);
    return whole ? places.at(-1)!.span : owner(places);
  };
  return {
    file,
    value: root.value as Plain,
    span,
    keySpan: (path) => owner(along(path).places),
    textSpan: (path, start, end) => {
      const { places, whole } = along(path);
      const place = places.at(-1)!;
      if (!whole || !place.scalar) return span(path);
      return place.scalar.type === "BLOCK_LITERAL"
        ? spanInLiteral(mapFor(place.scalar), file, start, end)
        : spanInLine(text, String(place.value ?? ""), place.scalar.type !== "PLAIN", place.span, start, end);
    },
    isLiteralBlock: (path) => {
      const { places, whole } = along(path);
      return whole && places.at(-1)!.scalar?.type === "BLOCK_LITERAL";
    },
  };
}
