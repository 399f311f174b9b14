import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { inlineYaml } from "../parse/yaml/stringify-yaml.ts";
import { KINDS, nounOf, unitsOf } from "../units/table.ts";
import type { DeclaredUnits } from "./schema/quantities.ts";

/** Kinds of numbers without a unit from which on `units` itself is missing. */
const MOST_KINDS = 2;

/** Reports a missing `units` once, in place of every number that lacks one. */
export function mergeMissingUnits(diagnostics: readonly Diagnostic[], units: DeclaredUnits): readonly Diagnostic[] {
  const bare = diagnostics.filter(({ code }) => code === "units/missing-unit");
  const kinds = new Set(bare.map(({ message }) => message));
  if (Object.keys(units).length > 0 || kinds.size < MOST_KINDS) return diagnostics;
  const [first] = bare;
  const lacking = KINDS.filter((kind) => bare.some(({ message }) => message.startsWith(`${nounOf(kind)} `)));
  const usual = Object.fromEntries(lacking.map((kind) => [kind, unitsOf(kind)[0]!.name]));
  const merged: Diagnostic = {
    ...first!,
    message: "bare numbers have no unit here: `units` is not stated",
    note: "in this file or in shop.yaml it says once which units they take",
    hint: `write units: ${inlineYaml(usual)}`,
  };
  return diagnostics.flatMap((one) => (one === first ? [merged] : one.code === first!.code ? [] : [one]));
}
