import { yamlLanguage } from "@codemirror/lang-yaml";

/** Where the cursor stands in a job: the keys that lead there ("[]" for an entry of a list), and what is being typed. */
export type PlaceInYaml = {
  readonly path: readonly string[];
  readonly kind: "key" | "value";
  readonly word: string;
  /** Keys that stand already beside the one being typed, before the cursor. */
  readonly beside: ReadonlySet<string>;
};

type Node = ReturnType<ReturnType<typeof yamlLanguage.parser.parse>["resolveInner"]>;

/**
 * The place at the end of a text; nothing inside a table or other block of text, a comment or quotes. The text is parsed up
 * to the cursor, for what follows would be taken for the half-typed line's continuation, and with a key's end put there.
 */
export function placeAtEnd(before: string): PlaceInYaml | undefined {
  const leaf = yamlLanguage.parser.parse(`${before}x: `).resolveInner(before.length + 1, -1);
  const word = before.slice(leaf.from);
  if (leaf.name !== "Literal" || /\n|:$/.test(word) || !/(^|[\s[{,])$/.test(before.slice(0, leaf.from)))
    return undefined;
  const textOf = (node: Node) => before.slice(node.from, node.to).replace(/^["']|["']$/g, "");

  const path: string[] = [];
  for (let node = leaf; node.parent; node = node.parent) {
    const key = node.name === "Key" ? null : node.parent.getChild("Key");
    if (node.name === "Item") path.unshift("[]");
    else if (node.parent.name === "Pair" && key) path.unshift(textOf(key));
  }
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
