import { catalog, deref, get, listOf, type PdfFile } from "./pdf-file.ts";
import { type Dict, isKind, nameOf, textOf, type Value } from "./values.ts";

/** An element of the structure tree, its type as the role map has it. */
export type Element = {
  readonly number: number;
  readonly type: string;
  readonly dict: Dict;
  readonly parent?: Element;
  readonly children: readonly Element[];
  /** Marked content in this element itself, and annotations that it refers to, by their objects' numbers. */
  readonly content: readonly { readonly page: number; readonly mcid: number }[];
  readonly annotations: readonly number[];
};

const STANDARD = new Set(
  (
    "Document Part Art Sect Div BlockQuote Caption TOC TOCI Index NonStruct Private P H H1 H2 H3 H4 H5 H6 L LI Lbl LBody " +
    "Table TR TH TD THead TBody TFoot Span Quote Note Reference BibEntry Code Link Annot Ruby RB RT RP Warichu WT WP Figure Formula Form"
  ).split(" "),
);

/** The standard type behind a name; undefined when the role map leads nowhere or round in a circle. */
export function standardType(file: PdfFile, type: string): string | undefined {
  const seen = new Set<string>();
  let found: string | undefined = type;
  while (found !== undefined && !STANDARD.has(found)) {
    if (seen.has(found)) return undefined;
    seen.add(found);
    found = nameOf(get(file, catalog(file), "StructTreeRoot", "RoleMap", found));
  }
  return found;
}

/** Standard types that the role map gives another meaning. */
export function remapped(file: PdfFile): readonly string[] {
  const map = get(file, catalog(file), "StructTreeRoot", "RoleMap");
  return isKind(map, "dict") ? [...map.entries.keys()].filter((type) => STANDARD.has(type)) : [];
}

/** Every element in reading order, parents before their children. */
export function elementsOf(file: PdfFile): readonly Element[] {
  const root = get(file, catalog(file), "StructTreeRoot");
  if (!isKind(root, "dict")) return [];
  const all: Element[] = [];
  for (const kid of listOf(file, root.entries.get("K"))) walk(file, kid, undefined, undefined, all);
  return all;
}

/** The elements of these types, in reading order. */
export const elements = (file: PdfFile, ...types: readonly string[]): readonly Element[] =>
  elementsOf(file).filter(({ type }) => types.includes(type));

function walk(file: PdfFile, node: Value, parent: Element | undefined, page: number | undefined, all: Element[]): void {
  const dict = deref(file, node);
  if (!isKind(node, "ref") || !isKind(dict, "dict")) return;
  const pg = dict.entries.get("Pg");
  const own = isKind(pg, "ref") ? pg.number : page;
  const written = nameOf(dict.entries.get("S")) ?? "";
  const children: Element[] = [];
  const content: { page: number; mcid: number }[] = [];
  const annotations: number[] = [];
  const element: Element = {
    number: node.number,
    type: standardType(file, written) ?? written,
    dict,
    ...(parent ? { parent } : {}),
    children,
    content,
    annotations,
  };
  all.push(element);
  for (const kid of listOf(file, dict.entries.get("K"))) {
    const found = deref(file, kid);
    if (typeof found === "number") content.push({ page: own ?? -1, mcid: found });
    else if (isKind(found, "dict") && nameOf(found.entries.get("Type")) === "MCR") {
      const at = found.entries.get("Pg");
      content.push({ page: isKind(at, "ref") ? at.number : (own ?? -1), mcid: Number(found.entries.get("MCID")) });
    } else if (isKind(found, "dict") && nameOf(found.entries.get("Type")) === "OBJR") {
      const object = found.entries.get("Obj");
      if (isKind(object, "ref")) annotations.push(object.number);
    } else {
      const before = all.length;
      walk(file, kid, element, own, all);
      if (all[before]) children.push(all[before]);
    }
  }
}

/** The parent tree, flat: by StructParents of a page a list, by StructParent of an annotation one reference. */
export function parentTree(file: PdfFile): ReadonlyMap<number, Value> {
  const found = new Map<number, Value>();
  const visit = (node: Value | undefined) => {
    const nums = get(file, node, "Nums");
    if (Array.isArray(nums)) for (let i = 0; i < nums.length; i += 2) found.set(nums[i] as number, nums[i + 1]!);
    const kids = get(file, node, "Kids");
    if (Array.isArray(kids)) kids.forEach(visit);
  };
  visit(get(file, catalog(file), "StructTreeRoot", "ParentTree"));
  return found;
}

/** An attribute of an element, of one owner. */
export function attribute(file: PdfFile, { dict }: Element, owner: string, key: string): Value | undefined {
  const held = listOf(file, dict.entries.get("A")).find((one) => nameOf(get(file, one, "O")) === owner);
  return get(file, held, key);
}

/** How an element calls itself in a complaint. */
export const called = ({ type, number, dict }: Element): string =>
  `${type} ${number}${textOf(dict.entries.get("Alt")) ? ` (${textOf(dict.entries.get("Alt"))!.slice(0, 24)})` : ""}`;
