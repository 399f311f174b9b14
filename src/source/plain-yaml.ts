import type { Plain } from "./located.ts";

/** A value of a plain text with its place; `keyStart` and `keyEnd` where it has a key. */
export type PlainNode = {
  readonly kind: "plain" | "quoted" | "literal" | "map" | "list" | "nothing";
  /** Where a single value stands, quotes included; of a literal block where its `|` does. Collections have none. */
  readonly start: number;
  readonly end: number;
  readonly keyStart: number;
  readonly keyEnd: number;
  readonly value: Plain | undefined;
  /** In order. */
  readonly children: readonly PlainNode[];
  /** Of a map the key of each child. */
  readonly keys: readonly string[];
};

/** Texts longer than this are read in full, where their values are counted. */
const LONGEST = 30_000;
const DEEPEST = 12;
const NONE: readonly never[] = [];

/** A key of words, up to its colon. */
const KEY = /[\p{L}\p{N}_](?:[^\n:#"'`{}[\],&*!|>%@?\\]*[^\s:#"'`{}[\],&*!|>%@?\\])?(?=:(?:[ \n]|$))/uy;
/** What a text without quotes may begin with. */
const BEGINS = /[^\s?:,[\]{}#&*!|>'"%@`-]|-[\w.]/uy;
/** Where words between brackets are over. */
const ENDS_IN_BRACKETS = /[,[\]{}\n]/g;
/** Tabs, carriage returns and what is not seen; lines of three dashes or dots, and directives. */
const BEYOND_PLAIN =
  /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\uffff\ud800-\udfff\u{e0000}-\u{e007f}]|^(?:---|\.\.\.|%)/mu;

/** Thrown where a text is not plain, and caught at the top. */
const NOT_PLAIN = Symbol("not plain");
const notPlain = (): never => {
  throw NOT_PLAIN;
};

/**
 * Reads the YAML that nearly all job files are made of: maps and lists by indent, maps and lists in brackets, words, quoted
 * texts without escapes, literal blocks. Anything else, faults among it, gives undefined: then the whole of YAML decides. What
 * it does read means the same in both, without a remark.
 */
export function plainYaml(text: string): PlainNode | undefined {
  if (text.length > LONGEST || BEYOND_PLAIN.test(text)) return undefined;
  try {
    return read(text);
  } catch (thrown) {
    if (thrown !== NOT_PLAIN) throw thrown;
    return undefined;
  }
}

function read(text: string): PlainNode {
  let at = 0;
  /** Indent of the line of words that comes next, with `at` on its first word; −1 at the end. */
  let indent = -1;

  const lineEnd = (from: number) => {
    const end = text.indexOf("\n", from);
    return end < 0 ? text.length : end;
  };
  const blanks = (from: number) => {
    let i = from;
    while (text[i] === " ") i++;
    return i;
  };

  /** To the next line that is neither empty nor a comment. */
  function nextLine(from: number) {
    let start = from;
    while (start < text.length) {
      const word = blanks(start);
      const first = text[word];
      if (first !== "\n" && first !== "#" && first !== undefined) {
        at = word;
        indent = word - start;
        return;
      }
      start = lineEnd(word) + 1;
    }
    at = text.length;
    indent = -1;
  }

  /** A line ends here, but for a comment that nobody takes for text. */
  function endOfLine(from: number): void {
    const i = blanks(from);
    if (text[i] === "#" && i > from && /[\s#!]|^$/.test(text[i + 1] ?? "")) nextLine(lineEnd(i) + 1);
    else if (text[i] === "\n" || i === text.length) nextLine(i + 1);
    else notPlain();
  }

  /** What stands there with a colon behind it, if it may be a key. */
  function keyAt(from: number): string | undefined {
    KEY.lastIndex = from;
    if (!KEY.test(text)) return undefined;
    const key = text.slice(from, KEY.lastIndex);
    return key === "__proto__" || key.length > 200 ? notPlain() : key;
  }

  function keyHere(): string {
    return keyAt(at) ?? notPlain();
  }

  const single = (kind: PlainNode["kind"], start: number, end: number, value: string, key: Key): PlainNode =>
    value.trim() === "" ? notPlain() : nodeOf(kind, start, end, key, value);

  /** A map whose keys stand at `column`; `at` is on the first. */
  function map(column: number, depth: number, key: Key): PlainNode {
    if (depth > DEEPEST) notPlain();
    const children: PlainNode[] = [];
    const keys: string[] = [];
    let empty: Set<string> | undefined;
    const value: Record<string, Plain> = Object.create(null);
    do {
      const name = keyHere();
      const own = { keyStart: at, keyEnd: at + name.length };
      if (value[name] !== undefined || empty?.has(name)) notPlain();
      const child = valueAfterColon(own.keyEnd + 1, column, depth, own);
      children.push(child);
      keys.push(name);
      if (child.value !== undefined) value[name] = child.value;
      else {
        empty ??= new Set();
        empty.add(name);
      }
    } while (indent === column && text[at] !== "-");
    if (indent > column) notPlain();
    return nodeOf("map", 0, 0, key, value, children, keys);
  }

  function valueAfterColon(from: number, column: number, depth: number, key: Key): PlainNode {
    const start = blanks(from);
    if (text[start] === "\n" || text[start] === "#" || start === text.length) {
      endOfLine(from);
      const isList = text[at] === "-" && text[at + 1] === " ";
      if (indent > column) return isList ? list(indent, depth + 1, key) : map(indent, depth + 1, key);
      if (indent === column && isList) return list(indent, depth + 1, key);
      return nodeOf("nothing", 0, 0, key, undefined);
    }
    return inLine(start, column, depth, key);
  }

  function list(column: number, depth: number, key: Key): PlainNode {
    if (depth > DEEPEST) notPlain();
    const children: PlainNode[] = [];
    const value: Plain[] = [];
    do {
      if (text[at] !== "-" || text[at + 1] !== " ") notPlain();
      const start = blanks(at + 1);
      KEY.lastIndex = start;
      let child: PlainNode;
      if (KEY.test(text)) {
        const inner = column + (start - at);
        at = start;
        child = map(inner, depth + 1, NO_KEY);
      } else child = inLine(start, column, depth, NO_KEY);
      children.push(child);
      value.push(child.value as Plain);
    } while (indent === column && text[at] === "-");
    if (indent > column) notPlain();
    return nodeOf("list", 0, 0, key, value, children);
  }

  /** A value that begins on the line of its key or dash; what goes on below it is not plain, but for brackets and blocks. */
  function inLine(start: number, column: number, depth: number, key: Key): PlainNode {
    const first = text[start];
    let node: PlainNode;
    if (first === "|") node = literal(start, column, key);
    else if (first === "{" || first === "[") {
      node = brackets(start, column, depth + 1, key);
      endOfLine(node.end);
    } else if (first === '"' || first === "'") {
      node = quoted(start, key);
      endOfLine(node.end);
    } else {
      node = words(start, lineEnd(start), key);
      endOfLine(node.end);
    }
    return indent > column ? notPlain() : node;
  }

  /** Words up to a comment or the end of a line. */
  function words(start: number, stop: number, key: Key): PlainNode {
    BEGINS.lastIndex = start;
    if (!BEGINS.test(text)) notPlain();
    const line = text.slice(start, stop);
    const remark = line.indexOf(" #");
    const said = (remark < 0 ? line : line.slice(0, remark)).trimEnd();
    if (/:(?: |$)/.test(said)) notPlain();
    return single("plain", start, start + said.length, said, key);
  }

  function quoted(start: number, key: Key): PlainNode {
    const mark = text[start]!;
    const end = text.indexOf(mark, start + 1);
    const value = text.slice(start + 1, Math.max(end, start + 1));
    if (end < 0 || /[\n\\]/.test(value) || text[end + 1] === mark) notPlain();
    return single("quoted", start, end + 1, value, key);
  }

  function literal(start: number, column: number, key: Key): PlainNode {
    let line = lineEnd(start);
    if (text.slice(start + 1, line).trim() !== "" || line === text.length) notPlain();
    line++;
    const lines: string[] = [];
    let inner = -1;
    let filled = 0;
    for (let next = line; line < text.length; line = next) {
      const end = lineEnd(line);
      next = end + 1;
      const word = blanks(line);
      if (word >= end) {
        // Blanks before the first words may say more of the indent than they do.
        if (inner < 0 && end > line) notPlain();
        lines.push(text.slice(line + Math.max(inner, 0), end));
        continue;
      }
      if (inner < 0) inner = word - line;
      if (word - line < inner) break;
      if (inner <= column) notPlain();
      lines.push(text.slice(line + inner, end));
      filled = lines.length;
    }
    if (inner < 0) notPlain();
    // Blanks alone on a line after the last words are text in YAML's eyes, or not, by rules of their own.
    if (lines.slice(filled).some((one) => one !== "")) notPlain();
    nextLine(line);
    if (line < text.length && blanks(line) - line > column) notPlain();
    lines.length = filled;
    return nodeOf("literal", start, start, key, `${lines.join("\n")}\n`);
  }

  /** Blanks and line ends between the parts of something in brackets; a line must be indented deeper than what holds it. */
  function gap(from: number, column: number): number {
    let i = blanks(from);
    while (text[i] === "\n") {
      const start = i + 1;
      i = blanks(start);
      if (text[i] !== "\n" && i - start <= column) notPlain();
    }
    return i;
  }

  function brackets(start: number, column: number, depth: number, key: Key): PlainNode {
    if (depth > DEEPEST) notPlain();
    const isMap = text[start] === "{";
    const closing = isMap ? "}" : "]";
    const children: PlainNode[] = [];
    const keys: string[] = [];
    const values: Plain[] = [];
    const value: Record<string, Plain> = Object.create(null);
    let i = gap(start + 1, column);
    for (;;) {
      let own: Key = NO_KEY;
      let name = "";
      const typed = keyAt(i);
      if (isMap) {
        if (typed === undefined || value[typed] !== undefined) notPlain();
        name = typed!;
        keys.push(name);
        own = { keyStart: i, keyEnd: i + name.length };
        i = gap(own.keyEnd + 1, column);
      } else if (typed !== undefined) notPlain();
      const first = text[i];
      let child: PlainNode;
      if (first === "{" || first === "[") child = brackets(i, column, depth + 1, own);
      else if (first === '"' || first === "'") child = quoted(i, own);
      else {
        ENDS_IN_BRACKETS.lastIndex = i;
        const stop = ENDS_IN_BRACKETS.test(text) ? ENDS_IN_BRACKETS.lastIndex - 1 : text.length;
        child = words(i, stop, own);
        if (child.end !== i + text.slice(i, stop).trimEnd().length) notPlain();
      }
      children.push(child);
      if (isMap) value[name] = child.value as Plain;
      else values.push(child.value as Plain);
      i = gap(child.end, column);
      if (text[i] === closing)
        return nodeOf(isMap ? "map" : "list", start, i + 1, key, isMap ? value : values, children, keys);
      if (text[i] !== ",") notPlain();
      i = gap(i + 1, column);
    }
  }

  nextLine(0);
  if (indent !== 0) notPlain();
  const root = map(0, 0, NO_KEY);
  return at < text.length ? notPlain() : root;
}

type Key = Pick<PlainNode, "keyStart" | "keyEnd">;
const NO_KEY: Key = { keyStart: -1, keyEnd: -1 };

/** Nodes of one shape: a text has hundreds. */
const nodeOf = (
  kind: PlainNode["kind"],
  start: number,
  end: number,
  { keyStart, keyEnd }: Key,
  value: PlainNode["value"],
  children: PlainNode["children"] = NONE,
  keys: PlainNode["keys"] = NONE,
): PlainNode => ({ kind, start, end, keyStart, keyEnd, value, children, keys });
