import type { Diagnostic } from "./diagnostic.ts";

/** File by file as they first appear, each from top to bottom; those without a place first. One slip is told once. */
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
