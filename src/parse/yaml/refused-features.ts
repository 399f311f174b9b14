import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { shorten } from "../../util/shorten.ts";
import type { FlatToken } from "./tokens.ts";

type RefusedFeature = {
  readonly code: Diagnostic["code"];
  readonly message: (source: string) => string;
  readonly hint: string;
};

/**
 * Features of YAML that job files do not need: shared values (`&`, `*`) can make a small file expand to billions of values,
 * tags and directives change the meaning of what follows.
 */
const REFUSED: Readonly<Record<string, RefusedFeature>> = {
  directive: {
    code: "source/directive",
    message: (source) => `\`${source.trim().split(/\s/)[0]}\` lines are not read`,
    hint: "delete the line, and the `---` under it",
  },
  tag: {
    code: "source/tag",
    message: (source) => `\`${source}\` is read as a YAML tag, which job files do not use`,
    hint: "delete it; if it is text, put the value in quotes",
  },
  anchor: {
    code: "source/anchor",
    message: (source) => `\`${source}\` is read as a YAML anchor, which job files do not use`,
    hint: "delete it; if it is text, put the value in quotes",
  },
  alias: {
    code: "source/alias",
    message: (source) => `\`${source}\` is read as a reference to another value, which job files do not use`,
    hint: "write the value out; if it is text, put it in quotes",
  },
};

/** Upper limit of reported errors. */
const MOST_FAULTS = 50;

/** An error for each directive, tag, anchor and alias. */
export function refusedFeatures(file: string, tokens: readonly FlatToken[]): readonly Diagnostic[] {
  const faults: Diagnostic[] = [];
  for (const { type, offset, source = "" } of tokens) {
    const refusal = Object.hasOwn(REFUSED, type) ? REFUSED[type] : undefined;
    if (!refusal) continue;
    if (faults.length === MOST_FAULTS) break;
    faults.push({
      severity: "error",
      code: refusal.code,
      message: refusal.message(shorten(source)),
      at: { file, start: offset, end: offset + source.length },
      hint: refusal.hint,
    });
  }
  return faults;
}
