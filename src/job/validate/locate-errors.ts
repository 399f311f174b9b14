import { sortDiagnostics } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { didYouMean } from "../../diagnostics/did-you-mean.ts";
import type { Path, SourceDocument } from "../../parse/yaml/source-document.ts";
import type { KeyTree } from "../schema/keys.ts";
import type { SchemaError } from "./schema-errors.ts";

/** Schema errors as diagnostics with their places in the file. An unknown key near a missing one is reported once. */
export function locateErrors(faults: readonly SchemaError[], located: SourceDocument, tree: KeyTree): Diagnostic[] {
  const owners = ownersByKey(tree);
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
      const hint =
        near === undefined ? hintElsewhere(owners.get(key) ?? [], fault.known ?? []) : `did you mean \`${near}\`?`;
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

/** For every key of a schema the keys that may hold it, shallowest first: for a key typed in the wrong place. */
function ownersByKey(tree: KeyTree): ReadonlyMap<string, readonly string[]> {
  const ownersOf = new Map<string, Map<string, number>>();
  const walk = ({ keys, record }: KeyTree, owner: string | undefined, depth: number): void => {
    for (const [key, inner] of keys) {
      const owners = ownersOf.get(key) ?? new Map<string, number>();
      if (owner !== undefined && !owners.has(owner)) owners.set(owner, depth);
      ownersOf.set(key, owners);
      walk(inner, key, depth + 1);
    }
    if (record) walk(record, owner, depth);
  };
  walk(tree, undefined, 0);
  const byDepth = (owners: ReadonlyMap<string, number>) => [...owners].toSorted(([, a], [, b]) => a - b);
  return new Map([...ownersOf].map(([key, owners]) => [key, byDepth(owners).map(([owner]) => owner)]));
}

/** A longer list of owners or of known keys is no help in a hint. */
const MOST_OWNERS = 3;
const MOST_KEYS = 14;

function hintElsewhere(owners: readonly string[], known: readonly string[]): string | undefined {
  if (owners.length > 0 && owners.length <= MOST_OWNERS)
    return `it belongs under ${owners.map((owner) => `\`${owner}\``).join(" or ")}`;
  return known.length > 0 && known.length <= MOST_KEYS ? `known here: ${known.join(", ")}` : undefined;
}

const diagnostic = (fault: SchemaError, at: Diagnostic["at"]): Diagnostic => ({
  severity: "error",
  code: fault.code,
  message: fault.message,
  ...(at === undefined ? {} : { at }),
  ...(fault.hint === undefined ? {} : { hint: fault.hint }),
});

/** Up to so many missing units of one kind are reported one by one; more of them mean that `units` is missing. */
const MOST_MISSING_UNITS = 2;

/** Merges the errors of numbers without a unit into one where `units` is missing altogether. */
function mergeMissingUnitErrors(diagnostics: readonly Diagnostic[]): Diagnostic[] {
  return diagnostics.flatMap((each) => {
    if (each.code !== "units/missing-unit") return [each];
    const same = diagnostics.filter((other) => other.code === each.code && other.message === each.message);
    if (same.length <= MOST_MISSING_UNITS) return [each];
    if (each !== sortDiagnostics(same)[0]) return [];
    const note = `and at ${same.length - 1} more places; \`units\` in the job or in shop.yaml says it once for all`;
    return [{ ...each, note }];
  });
}
