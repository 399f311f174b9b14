import { yamlLanguage } from "@codemirror/lang-yaml";

/** Position of the cursor in a job: the path of keys ("[]" for a list entry), and the word being typed. */
export type PlaceInYaml = {
  readonly path: readonly string[];
  readonly kind: "key" | "value";
  readonly word: string;
  /** Sibling keys before the cursor. */
  readonly beside: ReadonlySet<string>;
};

type Tree = ReturnType<typeof yamlLanguage.parser.parse>;
type Node = ReturnType<Tree["resolveInner"]>;

/**
 * The place at the end of a text; undefined inside a block scalar, a comment or quotes. The text is parsed only up to the cursor, as the
 * following lines could parse as a continuation of the incomplete one, and with `x: ` appended to complete a key.
 */
export function placeAtEnd(before: string): PlaceInYaml | undefined {
  const leaf = yamlLanguage.parser.parse(`${before}x: `).resolveInner(before.length + 1, -1);
  const word = before.slice(leaf.from);
  if (leaf.name !== "Literal" || /\n|:$/.test(word) || !/(^|[\s[{,])$/.test(before.slice(0, leaf.from)))
    return undefined;
  const textOf = (node: Node) => unquoted(before.slice(node.from, node.to));
  const path = pathTo(leaf, textOf);
  const mapping = leaf.parent!.name === "Key" ? leaf.parent!.parent!.parent! : undefined;
  const owner = mapping?.parent?.name === "Pair" ? mapping.parent : undefined;
  const isValue =
    mapping?.name === "FlowMapping"
      ? !mapping.getChild("{") // an entry of a list in brackets, which could become a key without braces
      : mapping === undefined || (owner !== undefined && !before.slice(owner.from, leaf.from).includes("\n"));
  const pairs = isValue ? [] : mapping!.getChildren("Pair");
  const beside = pairs.flatMap((pair) => (pair.to <= leaf.from ? (pair.getChild("Key") ?? []) : [])).map(textOf);
  return { path, kind: isValue ? "value" : "key", word, beside: new Set(beside) };
}

/** The key at a position, with its path; undefined beside keys. */
export function keyAt(
  tree: Tree,
  position: number,
  slice: (from: number, to: number) => string,
): { readonly path: readonly string[]; readonly from: number; readonly to: number } | undefined {
  const leaf =
    tree.resolveInner(position, 1).name === "Literal"
      ? tree.resolveInner(position, 1)
      : tree.resolveInner(position, -1);
  const key = leaf.name === "Key" ? leaf : leaf.parent?.name === "Key" ? leaf.parent : undefined;
  if (!key?.parent) return undefined;
  const textOf = (node: Node) => unquoted(slice(node.from, node.to));
  return { path: [...pathTo(key.parent, textOf), textOf(key)], from: key.from, to: key.to };
}

const unquoted = (text: string) => text.replace(/^["']|["']$/g, "");

/** Keys from the root down to a node. */
function pathTo(leaf: Node, textOf: (node: Node) => string): readonly string[] {
  const path: string[] = [];
  for (let node = leaf; node.parent; node = node.parent) {
    const key = node.name === "Key" ? null : node.parent.getChild("Key");
    if (node.name === "Item") path.unshift("[]");
    else if (node.parent.name === "Pair" && key) path.unshift(textOf(key));
  }
  return path;
}
