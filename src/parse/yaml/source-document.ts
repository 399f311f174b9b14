import type { Span } from "../../diagnostics/diagnostic.ts";

/**
 * Parsed YAML without a schema: every scalar is the text as typed (`012` stays `012`, `12.10` stays `12.10`), an empty value
 * is an absent key. Maps keep their order and have no prototype.
 */
export type YamlValue = string | readonly YamlValue[] | { readonly [key: string]: YamlValue };

export type Path = readonly (string | number)[];

/** A parsed document with source positions. */
export type SourceDocument = {
  readonly file: string;
  readonly value: YamlValue;
  /** The span of the value at `path`; of the nearest parent's key when it is missing. */
  readonly span: (path: Path) => Span;
  /** The span of the key at `path`. */
  readonly keySpan: (path: Path) => Span;
  /** The span of characters [start, end) of the text at `path`, block scalars included. */
  readonly textSpan: (path: Path, start: number, end: number) => Span;
  /** Whether the text at `path` was written as a literal block (`|`). */
  readonly isLiteralBlock: (path: Path) => boolean;
};

/** The value at a path, if there is one. */
export function valueAt(root: YamlValue, path: Path): YamlValue | undefined {
  let value: YamlValue | undefined = root;
  for (const part of path) {
    if (typeof value !== "object" || value === null) return undefined;
    value = Object.hasOwn(value, part) ? (value as Record<string | number, YamlValue>)[part] : undefined;
  }
  return value;
}
