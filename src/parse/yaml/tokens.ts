import { CST, Lexer, Parser } from "yaml";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { LIMITS } from "../limits.ts";

/** A token with its depth in maps and lists; a simpler form of the parser's own types. */
export type FlatToken = {
  readonly type: string;
  readonly offset: number;
  readonly source?: string;
  readonly depth: number;
};

const tooDeep = (file: string, offset: number): Diagnostic => ({
  severity: "error",
  code: "source/too-deep",
  message: `this is nested more than ${LIMITS.depth} levels deep`,
  at: { file, start: offset, end: offset + 1 },
  hint: "close the brackets before it",
});

/** The lexemes of a text, in order. */
export const lexYaml = (text: string): readonly string[] => [...new Lexer().lex(text)];

/** Errors of a text with too many tokens or too deep brackets, found by its lexemes alone. */
export function shapeFaults(file: string, lexemes: readonly string[]): readonly Diagnostic[] {
  let count = 0;
  let depth = 0;
  let offset = 0;
  for (const lexeme of lexemes) {
    // Control lexemes of the lexer have no width in the text.
    if (lexeme === CST.DOCUMENT || lexeme === CST.FLOW_END || lexeme === CST.SCALAR) continue;
    if (lexeme.trim() !== "") count++;
    if (count > LIMITS.tokens) {
      return [
        {
          severity: "error",
          code: "source/too-many-values",
          message: `the file has more than ${LIMITS.tokens} keys, values and marks`,
          at: { file, start: offset, end: offset + lexeme.length },
          hint: "one file holds one job; put long readings into a readings file of their own",
        },
      ];
    }
    if (lexeme === "[" || lexeme === "{") depth++;
    if (lexeme === "]" || lexeme === "}") depth = Math.max(0, depth - 1);
    if (depth > LIMITS.depth) return [tooDeep(file, offset)];
    offset += lexeme.length;
  }
  return [];
}

/** Parses lexemes without shape errors into concrete syntax trees. */
export function parseTokens(lexemes: readonly string[]): readonly CST.Token[] {
  const parser = new Parser();
  return [...lexemes.flatMap((lexeme) => [...parser.next(lexeme)]), ...parser.end()];
}

/** Properties of a token that hold other tokens, last to first. */
const PARTS = ["end", "items", "value", "sep", "key", "props", "start"] as const;

/** All tokens in order of the text; iterative, so that deep nesting cannot overflow the call stack. */
export function flattenTokens(tokens: readonly CST.Token[]): readonly FlatToken[] {
  const flat: FlatToken[] = [];
  const stack: { value: unknown; depth: number }[] = tokens.toReversed().map((value) => ({ value, depth: 0 }));
  for (let next = stack.pop(); next; next = stack.pop()) {
    const { value, depth } = next;
    if (Array.isArray(value)) {
      for (const one of value.toReversed()) stack.push({ value: one, depth });
    } else if (value !== null && typeof value === "object") {
      const token = value as Record<string, unknown> & Omit<FlatToken, "depth">;
      if (typeof token.type === "string")
        flat.push({ type: token.type, offset: token.offset, source: token.source, depth });
      const below = depth + (Array.isArray(token.items) ? 1 : 0);
      for (const part of PARTS)
        if (token[part]) stack.push({ value: token[part], depth: part === "items" ? below : depth });
    }
  }
  return flat;
}

/** The error at the first token nested too deeply, if any. */
export function depthFaults(file: string, tokens: readonly FlatToken[]): readonly Diagnostic[] {
  const deep = tokens.find(({ depth }) => depth > LIMITS.depth);
  return deep ? [tooDeep(file, deep.offset)] : [];
}
