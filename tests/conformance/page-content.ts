import { isOperator, lexer } from "./lexer.ts";
import { content, deref, get, listOf, once, type PdfFile, pagesOf } from "./pdf-file.ts";
import { type Dict, isKind, nameOf, type Value } from "./values.ts";

/** A marked content that is open where an operator stands. */
export type Mark = { readonly tag: string; readonly mcid?: number };
export type Operation = {
  readonly operator: string;
  readonly operands: readonly Value[];
  readonly marks: readonly Mark[];
  /** Of q without its Q. */
  readonly depth: number;
};
export type PageContent = {
  readonly number: number;
  readonly page: Dict;
  readonly resources: Value | undefined;
  readonly operations: readonly Operation[];
};

const PAINTING = new Set(["S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "Tj", "TJ", "'", '"', "Do", "sh", "EI"]);
export const paints = ({ operator }: Operation): boolean => PAINTING.has(operator);

/** What every page paints, operator by operator. */
export const pageContents = once((file: PdfFile): readonly PageContent[] =>
  pagesOf(file).map(({ number, page }) => ({
    number,
    page,
    resources: get(file, page, "Resources"),
    operations: operationsOf(file, page),
  })),
);

function operationsOf(file: PdfFile, page: Dict): readonly Operation[] {
  const source = listOf(file, page.entries.get("Contents"))
    .map((part) => deref(file, part))
    .map((part) => (isKind(part, "stream") ? content(file, part).toString("latin1") : ""))
    .join("\n");
  const words = lexer(source);
  const operations: Operation[] = [];
  let operands: Value[] = [];
  let marks: readonly Mark[] = [];
  let depth = 0;
  for (let word = words.next(); word !== undefined; word = words.next()) {
    if (!isOperator(word)) {
      operands.push(word);
      continue;
    }
    const { operator } = word;
    if (operator === "BMC" || operator === "BDC") marks = [...marks, markOf(file, operands)];
    if (operator === "q") depth++;
    operations.push({ operator, operands, marks, depth });
    if (operator === "EMC") marks = marks.slice(0, -1);
    if (operator === "Q") depth--;
    operands = [];
  }
  return operations;
}

function markOf(file: PdfFile, [tag, properties]: readonly Value[]): Mark {
  const mcid = get(file, properties, "MCID");
  return { tag: nameOf(tag) ?? "", ...(typeof mcid === "number" ? { mcid } : {}) };
}
