import { CST, Lexer, Parser } from "yaml";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { LIMITS } from "./limits.ts";

/** Any token with a place; the parser's own types are finer than needed here. */
export type AnyToken = { readonly type: string; readonly offset: number; readonly source?: string };

const tooDeep = (file: string, offset: number): Diagnostic => ({
  severity: "error",
  code: "source/too-deep",
  message: `this is nested more than ${LIMITS.depth} levels deep`,
  at: { file, start: offset, end: offset + 1 },
  hint: "close the brackets before it",
});

/** Whether a text is small and flat enough to be composed. Looks at the text's marks only, so that it is quick on any text. */
export function shapeFaults(file: string, text: string): readonly Diagnostic[] {
  let count = 0;
  let depth = 0;
  let offset = 0;
  for (const lexeme of new Lexer().lex(text)) {
    // The lexer puts marks of its own between the pieces of text: they have no width.
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

/** The syntax tree of a text that `shapeFaults` let pass. */
export const parseTokens = (text: string): readonly CST.Token[] => [...new Parser().parse(text)];

/** Every token below, outermost first, with its depth in maps and lists. A stack of its own: no text can exhaust it. */
export function* everyToken(tokens: readonly CST.Token[]): Generator<{ token: AnyToken; depth: number }> {
  const stack: { value: unknown; depth: number }[] = tokens.toReversed().map((value) => ({ value, depth: 0 }));
  for (let next = stack.pop(); next; next = stack.pop()) {
    const { value, depth } = next;
    if (Array.isArray(value)) {
      for (const one of value.toReversed()) stack.push({ value: one, depth });
    } else if (value !== null && typeof value === "object") {
      const token = value as Record<string, unknown>;
      if (typeof token.type === "string") yield { token: token as unknown as AnyToken, depth };
      const below = depth + (Array.isArray(token.items) ? 1 : 0);
      for (const part of ["end", "items", "value", "sep", "key", "props", "start"]) {
        if (token[part]) stack.push({ value: token[part], depth: part === "items" ? below : depth });
      }
    }
  }
}

/** The first place that is nested too deeply, if any. */
export function depthFaults(file: string, tokens: readonly CST.Token[]): readonly Diagnostic[] {
  for (const { token, depth } of everyToken(tokens)) if (depth > LIMITS.depth) return [tooDeep(file, token.offset)];
  return [];
}
