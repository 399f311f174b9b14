import type { Span } from "../diagnostics/diagnostic.ts";
import type { Located, Path, Plain } from "./located.ts";
import type { PlainNode } from "./plain-yaml.ts";
import { literalOffsets, type OffsetMap, spanInLine, spanInLiteral } from "./text-offsets.ts";

const childOf = ({ kind, children, keys }: PlainNode, step: string | number): PlainNode | undefined =>
  children[kind === "map" ? keys.indexOf(String(step)) : Number(step)];

/**
 * A plain text as a document. Places of single values, their words and their keys are known; for those of maps, of lists and of what
 * is missing the text is read once more, in full: only faults ask for them.
 */
export function plainlyLocated(file: string, text: string, root: PlainNode, inFull: () => Located): Located {
  let read: Located | undefined;
  const full = () => {
    read ??= inFull();
    return read;
  };
  // Many places are asked for in one table.
  let asked: Path = [];
  let found: PlainNode | undefined = root;
  const at = (path: Path): PlainNode | undefined => {
    if (path === asked) return found;
    let node: PlainNode | undefined = root;
    for (const step of path) node = node && childOf(node, step);
    [asked, found] = [path, node];
    return node;
  };
  const own = ({ start, end }: PlainNode): Span => ({ file, start, end });
  const isSingle = (node: PlainNode | undefined) => node?.kind === "plain" || node?.kind === "quoted";
  const maps = new Map<PlainNode, OffsetMap>();
  const mapFor = (node: PlainNode): OffsetMap => {
    const known = maps.get(node) ?? literalOffsets(text, node.start, node.value as string);
    maps.set(node, known);
    return known;
  };
  return {
    file,
    value: root.value as Plain,
    span: (path) => {
      const node = at(path);
      return node && isSingle(node) ? own(node) : full().span(path);
    },
    keySpan: (path) => {
      const node = at(path);
      return node && node.keyStart >= 0 ? { file, start: node.keyStart, end: node.keyEnd } : full().keySpan(path);
    },
    textSpan: (path, start, end) => {
      const node = at(path);
      if (node?.kind === "literal") return spanInLiteral(mapFor(node), file, start, end);
      return node && isSingle(node)
        ? spanInLine(text, node.value as string, node.kind === "quoted", own(node), start, end)
        : full().textSpan(path, start, end);
    },
    isLiteralBlock: (path) => at(path)?.kind === "literal",
  };
}
