import type { Diagnostic, Span } from "./diagnostic.ts";

type Details = { readonly hint?: string; readonly note?: string };

/** An error at a place. */
export const error = (code: Diagnostic["code"], message: string, at: Span, words: Details = {}): Diagnostic => ({
  severity: "error",
  code,
  message,
  at,
  ...words,
});

/** A warning at a place. */
export const warning = (code: Diagnostic["code"], message: string, at: Span, words: Details = {}): Diagnostic => ({
  ...error(code, message, at, words),
  severity: "warning",
});

export const hasError = (diagnostics: readonly Diagnostic[]): boolean =>
  diagnostics.some(({ severity }) => severity === "error");

/** Sorts by file in order of first appearance, then by position; diagnostics without a place come first. Removes duplicates. */
export function sortDiagnostics(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  const files = new Map<string, number>();
  for (const { at } of diagnostics) if (at && !files.has(at.file)) files.set(at.file, files.size);
  const rank = ({ at }: Diagnostic) => (at ? files.get(at.file)! : -1);
  const seen = new Set<string>();
  return diagnostics
    .filter(({ code, message, at }) => {
      const key = JSON.stringify([code, message, at?.file, at?.start, at?.end]);
      return !seen.has(key) && seen.add(key);
    })
    .toSorted((a, b) => rank(a) - rank(b) || (a.at?.start ?? 0) - (b.at?.start ?? 0));
}
