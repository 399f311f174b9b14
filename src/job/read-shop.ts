import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import { sortDiagnostics } from "../diagnostics/sort.ts";
import type { Located } from "../source/located.ts";
import { readYaml } from "../source/read-yaml.ts";
import { declaredUnits } from "./declared-units.ts";
import { readValidated } from "./read-validated.ts";
import { SHOP_RULES } from "./rules/job-rules.ts";
import type { DeclaredUnits } from "./schema/quantities.ts";
import { type ShopFile, shopSchema } from "./schema/shop.ts";

export type ReadShop = {
  readonly shop?: ShopFile;
  readonly located?: Located;
  readonly units: DeclaredUnits;
  readonly diagnostics: readonly Diagnostic[];
};

/** The last shop read: all jobs of a batch stand under one or two, and reading it costs as much as reading a job. */
let last: { readonly file: string; readonly text: string; readonly read: ReadShop } | undefined;

/** Reads and checks the text of a `shop.yaml`. Pure: `file` only names it, and the same text reads the same. */
export function readShop(file: string, text: string): ReadShop {
  if (last?.file !== file || last.text !== text) last = { file, text, read: readAnew(file, text) };
  return last.read;
}

function readAnew(file: string, text: string): ReadShop {
  const { document, diagnostics: read } = readYaml(file, text);
  if (!document) return { units: {}, diagnostics: read };
  const units = declaredUnits(document.value);
  const { value, sound, diagnostics: refused } = readValidated(shopSchema(units), document);
  const ruled = sound ? SHOP_RULES.flatMap((rule) => rule({ shop: sound, located: document })) : [];
  const diagnostics = sortDiagnostics([...read, ...refused, ...ruled]);
  const bad = diagnostics.some((each) => each.severity === "error");
  return { ...(value !== undefined && !bad ? { shop: value } : {}), located: document, units, diagnostics };
}
