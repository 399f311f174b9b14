import { hasError, sortDiagnostics } from "../diagnostics/build.ts";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { parseYaml } from "../parse/yaml/parse-yaml.ts";
import type { SourceDocument } from "../parse/yaml/source-document.ts";
import { SHOP_RULES } from "./rules/job-rules.ts";
import type { DeclaredUnits } from "./schema/quantities.ts";
import { type ShopFile, shopSchema } from "./schema/shop.ts";
import { declaredUnits } from "./schema/units.ts";
import { validateDocument } from "./validate/validate-document.ts";

export type ReadShop = {
  readonly shop?: ShopFile;
  readonly located?: SourceDocument;
  readonly units: DeclaredUnits;
  readonly diagnostics: readonly Diagnostic[];
};

/** Parses and validates the text of a `shop.yaml`. Pure: `file` is only its name in messages. */
export function readShop(file: string, text: string): ReadShop {
  const { document, diagnostics: read } = parseYaml(file, text);
  if (!document) return { units: {}, diagnostics: read };
  const units = declaredUnits(document.value);
  const { value, sound, diagnostics: refused } = validateDocument(shopSchema(), document, units);
  const ruled = sound ? SHOP_RULES.flatMap((rule) => rule({ shop: sound, located: document })) : [];
  const diagnostics = sortDiagnostics([...read, ...refused, ...ruled]);
  const bad = hasError(diagnostics);
  return { ...(value !== undefined && !bad ? { shop: value } : {}), located: document, units, diagnostics };
}
