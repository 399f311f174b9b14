import type { Scalar } from "yaml";
import type { Span } from "../../diagnostics/diagnostic.ts";
import { literalOffsets, type OffsetMap, spanInLine, spanInLiteral } from "../text-offsets.ts";
import type { Path, SourceDocument, YamlValue } from "./source-document.ts";

/** Offsets into a text, [start, end). */
export type Range = { readonly start: number; readonly end: number };

/** A key with its position. */
export type Key = Range & { readonly name: string };

/** A value with its position. */
export type Place = Range & {
  readonly key: Key | undefined;
  /** The style of a scalar; undefined for maps and lists. */
  readonly style: Scalar.Type | undefined;
  /** Undefined where nothing was typed. */
  readonly value: YamlValue | undefined;
  readonly children: readonly Place[];
};

/** Builds a document from a tree of places. */
export function documentOf(file: string, text: string, root: Place): SourceDocument {
  const spanOf = ({ start, end }: Range): Span => ({ file, start, end });
  const span = (path: Path) => {
    const { place, whole } = follow(root, path);
    return spanOf(whole ? place : ownerOf(place, text));
  };
  // One map a literal block serves every cell of its table.
  const maps = new Map<Place, OffsetMap>();
  const offsetsIn = (place: Place): OffsetMap => {
    const offsets = maps.get(place) ?? literalOffsets(text, place.start, String(place.value ?? ""));
    maps.set(place, offsets);
    return offsets;
  };
  return {
    file,
    value: root.value as YamlValue,
    span,
    keySpan: (path) => spanOf(ownerOf(follow(root, path).place, text)),
    textSpan: (path, start, end) => {
      const { place, whole } = follow(root, path);
      if (!whole || place.style === undefined) return span(path);
      return place.style === "BLOCK_LITERAL"
        ? spanInLiteral(offsetsIn(place), file, start, end)
        : spanInLine(text, String(place.value ?? ""), place.style !== "PLAIN", spanOf(place), start, end);
    },
    isLiteralBlock: (path) => {
      const { place, whole } = follow(root, path);
      return whole && place.style === "BLOCK_LITERAL";
    },
  };
}

/** The deepest place along a path, and whether it is the path's end. */
function follow(root: Place, path: Path): { readonly place: Place; readonly whole: boolean } {
  let place = root;
  for (const step of path) {
    const next = childOf(place, step);
    if (!next) return { place, whole: false };
    place = next;
  }
  return { place, whole: true };
}

const childOf = ({ value, children }: Place, step: string | number): Place | undefined =>
  Array.isArray(value) ? children[Number(step)] : children.find(({ key }) => key?.name === String(step));

/** The range to report for a key missing under a place: its own key, else its first key, else its first line. */
function ownerOf({ key, children, start, end }: Place, text: string): Range {
  const firstKey = children.find((child) => child.key)?.key;
  return key ?? firstKey ?? { start, end: Math.min(end, start + firstLine(text.slice(start)).length) };
}

export const firstLine = (text: string): string => text.split(/\r?\n/)[0]!;
