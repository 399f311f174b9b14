import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { FlatToken } from "./tokens.ts";

type Refusal = {
  readonly code: Diagnostic["code"];
  readonly message: (source: string) => string;
  readonly hint: string;
};

/**
 * What YAML can do and a job file does not need. Refused whole: shared values (`&`, `*`) can blow a small file up, tags
 * and directives change what the words below them mean.
 */
const REFUSED: Readonly<Record<string, Refusal>> = {
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

/** Nobody mends more before looking again. */
const MOST_FAULTS = 50;

/** Directives, tags, anchors and aliases, each refused where it stands. */
export function refusedFeatures(file: string, tokens: readonly FlatToken[]): readonly Diagnostic[] {
  const faults: Diagnostic[] = [];
  for (const { type, offset, source = "" } of tokens) {
    const refusal = Object.hasOwn(REFUSED, type) ? REFUSED[type] : undefined;
    if (!refusal) continue;
    if (faults.length === MOST_FAULTS) break;
    faults.push({
      severity: "error",
      code: refusal.code,
      message: refusal.message(source.slice(0, 40)),
      at: { file, start: offset, end: offset + source.length },
      hint: refusal.hint,
    });
  }
  return faults;
}
