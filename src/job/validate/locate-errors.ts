import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { didYouMean } from "../../diagnostics/did-you-mean.ts";
import { sortDiagnostics } from "../../diagnostics/sort.ts";
import type { Path, SourceDocument } from "../../parse/yaml/source-document.ts";
import type { SchemaError } from "./schema-errors.ts";

/** Keys under which a key would be known. */
type HomesOf = (key: string) => readonly string[];

/** Faults placed in the file. A wrong key near a missing one is one slip, and said once. */
export function locateErrors(faults: readonly SchemaError[], located: SourceDocument, homesOf: HomesOf): Diagnostic[] {
  const absent = faults.filter((fault) => fault.kind === "missing");
  const explained = new Set<SchemaError>();
  const placed = faults
    .filter((fault) => fault.kind === "unknown")
    .map((fault) => {
      const key = String(fault.path.at(-1));
      const siblings = absent.filter((other) => sameParent(other.path, fault.path));
      const wanted = didYouMean(
        key,
        siblings.map((other) => String(other.path.at(-1))),
      );
      const twin = siblings.find((other) => other.path.at(-1) === wanted);
      if (twin) explained.add(twin);
      const near = wanted ?? didYouMean(key, fault.known ?? []);
      const hint = near === undefined ? elsewhere(homesOf(key), fault.known ?? []) : `did you mean \`${near}\`?`;
      return diagnostic({ ...fault, hint }, located.keySpan(fault.path));
    });
  const rest = faults
    .filter((fault) => fault.kind !== "unknown" && !explained.has(fault))
    .map((fault) =>
      diagnostic(fault, fault.within ? located.textSpan(fault.path, ...fault.within) : located.span(fault.path)),
    );
  return mergeMissingUnitErrors([...placed, ...rest]);
}

const sameParent = (a: Path, b: Path) =>
  a.length === b.length && a.slice(0, -1).every((part, index) => part === b[index]);

/** More places than this are no help. */
const FEW_HOMES = 3;
const FEW_KEYS = 14;

function elsewhere(homes: readonly string[], known: readonly string[]): string | undefined {
  if (homes.length > 0 && homes.length <= FEW_HOMES)
    return `it belongs under ${homes.map((home) => `\`${home}\``).join(" or ")}`;
  return known.length > 0 && known.length <= FEW_KEYS ? `known here: ${known.join(", ")}` : undefined;
}

const diagnostic = (fault: SchemaError, at: Diagnostic["at"]): Diagnostic => ({
  severity: "error",
  code: fault.code,
  message: fault.message,
  ...(at === undefined ? {} : { at }),
  ...(fault.hint === undefined ? {} : { hint: fault.hint }),
});

/** More than this many bare numbers of one kind are one slip: `units` was not said. */
const BARE_LIMIT = 2;

/** Says "needs a unit" once when `units` is missing altogether, not at every number of the file. */
function mergeMissingUnitErrors(diagnostics: readonly Diagnostic[]): Diagnostic[] {
  return diagnostics.flatMap((each) => {
    if (each.code !== "units/missing-unit") return [each];
    const same = diagnostics.filter((other) => other.code === each.code && other.message === each.message);
    if (same.length <= BARE_LIMIT) return [each];
    if (each !== sortDiagnostics(same)[0]) return [];
    const note = `and at ${same.length - 1} more places; \`units\` in the job or in shop.yaml says it once for all`;
    return [{ ...each, note }];
  });
}
