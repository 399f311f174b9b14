import { dict, name, ref, type Text, text, type Value } from "./values.ts";

/** A bare word in a content stream: an operator. */
export type Operator = { readonly kind: "operator"; readonly operator: string };

export type Lexer = { at: number; readonly next: () => Value | Operator | undefined };

/** Sticky: each reads on from a place. */
const BLANK = /[\0\t\n\f\r ]*/y;
const BARE = /[^\0\t\n\f\r ()<>[\]{}/%]*/y;
const REFERENCE = /(\d+) \d+ R(?![^\s()<>[\]{}/%])/y;
const ESCAPES: Readonly<Record<string, string>> = { n: "\n", r: "\r", t: "\t", b: "\b", f: "\f" };

/** Reads values and operators one by one from Latin-1 text (ISO 32000-1, 7.2 and 7.3); undefined at its end. */
export function lexer(source: string, start = 0): Lexer {
  const self: Lexer = { at: start, next: read };
  return self;

  function read(): Value | Operator | undefined {
    skip();
    const letter = source[self.at];
    if (letter === undefined) return undefined;
    if (letter === "/") return readName();
    if (letter === "(") return readText();
    if (letter === "[") return list("]");
    if (source.startsWith("<<", self.at)) return readDict();
    if (letter === "<") return hex();
    return word();
  }

  function here(pattern: RegExp): RegExpExecArray | null {
    pattern.lastIndex = self.at;
    return pattern.exec(source);
  }

  function skip(): void {
    for (;;) {
      self.at += here(BLANK)![0].length;
      if (source[self.at] !== "%") return;
      while (self.at < source.length && !"\r\n".includes(source[self.at]!)) self.at++;
    }
  }

  function bare(): string {
    const found = here(BARE)![0];
    self.at += found.length;
    return found;
  }

  function readName(): Value {
    self.at++;
    return name(bare().replace(/#([0-9a-f]{2})/gi, (_, code) => String.fromCharCode(Number.parseInt(code, 16))));
  }

  function list(end: string): Value[] {
    self.at += end.length;
    const values: Value[] = [];
    for (;;) {
      skip();
      if (source.startsWith(end, self.at)) {
        self.at += end.length;
        return values;
      }
      const value = read();
      if (value === undefined || isOperator(value)) throw new Error(`no value in a list at ${self.at}`);
      values.push(value);
    }
  }

  function readDict(): Value {
    const values = list(">>");
    const entries: Record<string, Value> = {};
    for (let i = 0; i < values.length; i += 2) {
      const key = values[i] as { name?: string };
      if (key.name === undefined) throw new Error(`a key that is no name before ${self.at}`);
      entries[key.name] = values[i + 1]!;
    }
    return dict(entries);
  }

  function readText(): Text {
    let depth = 0;
    let found = "";
    for (;;) {
      const letter = source[self.at++];
      if (letter === undefined) throw new Error("a string without an end");
      if (letter === "(" && depth++ === 0) continue;
      if (letter === ")" && --depth === 0) return text(found);
      if (letter !== "\\") {
        found += letter;
        continue;
      }
      const octal = /^[0-7]{1,3}/.exec(source.slice(self.at, self.at + 3))?.[0];
      if (octal) {
        found += String.fromCharCode(Number.parseInt(octal, 8));
        self.at += octal.length;
      } else {
        const escaped = source[self.at++]!;
        found += ESCAPES[escaped] ?? (escaped === "\n" ? "" : escaped);
      }
    }
  }

  function hex(): Text {
    const end = source.indexOf(">", self.at);
    const digits = source.slice(self.at + 1, end).replace(/\s/g, "");
    self.at = end + 1;
    return text(Buffer.from(digits.length % 2 ? `${digits}0` : digits, "hex").toString("latin1"));
  }

  function word(): Value | Operator {
    const reference = here(REFERENCE);
    if (reference) {
      self.at += reference[0].length;
      return ref(Number(reference[1]));
    }
    const found = bare();
    if (found === "") throw new Error(`what is ${source[self.at]} at ${self.at}?`);
    if (/^[+-]?(\d+\.?\d*|\.\d+)$/.test(found)) return Number(found);
    if (found === "true" || found === "false") return found === "true";
    return found === "null" ? null : { kind: "operator", operator: found };
  }
}

export const isOperator = (value: Value | Operator | undefined): value is Operator =>
  typeof value === "object" && value !== null && !Array.isArray(value) && value.kind === "operator";
