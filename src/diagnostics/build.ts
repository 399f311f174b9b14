import type { Diagnostic, Span } from "./diagnostic.ts";

type Words = { readonly hint?: string; readonly note?: string };

/** An error at a place. */
export const error = (code: Diagnostic["code"], message: string, at: Span, words: Words = {}): Diagnostic => ({
  severity: "error",
  code,
  message,
  at,
  ...words,
});

/** A warning at a place. */
export const warning = (code: Diagnostic["code"], message: string, at: Span, words: Words = {}): Diagnostic => ({
  ...error(code, message, at, words),
  severity: "warning",
});

export const hasError = (diagnostics: readonly Diagnostic[]): boolean =>
  diagnostics.some(({ severity }) => severity === "error");
