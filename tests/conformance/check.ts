import { accessibleRules } from "./accessible-rules.ts";
import { archivalRules } from "./archival-rules.ts";
import { levelARules } from "./level-a-rules.ts";
import { readPdf } from "./pdf-file.ts";
import type { Rule } from "./rule.ts";
import { tableRules } from "./table-rules.ts";

export const rules: readonly Rule[] = [...accessibleRules, ...tableRules, ...archivalRules, ...levelARules];

/** Every fault of a file, with the rule that it is against. */
export function check(bytes: Buffer): readonly string[] {
  const file = readPdf(bytes);
  return rules.flatMap(({ standard, rule, faults }) => faults(file).map((fault) => `${standard} ${rule}: ${fault}`));
}
