import type { Span } from "../../diagnostics/diagnostic.ts";

/**
 * What YAML holds, before anyone says what it means: every scalar is the text as typed (`012` stays `012`, `12.10`
 * stays `12.10`), an empty value is an absent key. Maps keep their order and have no prototype.
 */
export type YamlValue = string | readonly YamlValue[] | { readonly [key: string]: YamlValue };

export type Path = readonly (string | number)[];

/** A document that knows its places. */
export type SourceDocument = {
  readonly file: string;
  readonly value: YamlValue;
  /** Where the value at `path` stands; the nearest parent's key when it is missing. */
  readonly span: (path: Path) => Span;
  /** Where the key at `path` stands. */
  readonly keySpan: (path: Path) => Span;
  /** Where characters [start, end) of the text at `path` stand in the file, block scalars included. */
  readonly textSpan: (path: Path, start: number, end: number) => Span;
  /** Whether the text at `path` was written as a literal block (`|`). */
  readonly isLiteralBlock: (path: Path) => boolean;
};
