import { get, type PdfFile } from "./pdf-file.ts";
import { type Rule, when } from "./rule.ts";
import { called, type Element, elements, elementsOf } from "./structure-tree.ts";
import { grids, headersOf, headsByPlace, identifiers, scopeOf } from "./table-grid.ts";
import { textOf } from "./values.ts";

const ua = (rule: string, faults: Rule["faults"]): Rule => ({ standard: "PDF/UA-1", rule, faults });

const kinds = ({ children }: Element) => children.map(({ type }) => type).join(" ");
const SECTIONS = "(TR|THead|TBody|TFoot)( (TR|THead|TBody|TFoot))*";
const CAPTIONED = new RegExp(`^((Caption )?${SECTIONS}|${SECTIONS} Caption|Caption|)$`);

/** Machine rules of PDF/UA-1 (ISO 14289-1) on tables. */
export const tableRules: readonly Rule[] = [
  ua("7.2-3", (file) =>
    elements(file, "Table").flatMap((table) =>
      when(!CAPTIONED.test(kinds(table)), `${called(table)} holds ${kinds(table)}`),
    ),
  ),
  ua("7.2-10", (file) =>
    elements(file, "TR").flatMap((row) =>
      row.children.filter(({ type }) => type !== "TH" && type !== "TD").map((kid) => `${called(kid)} in a row`),
    ),
  ),
  ua("7.2-11, 7.2-14", (file) =>
    elements(file, "Table").flatMap((table) => {
      const count = (type: string) => table.children.filter((kid) => kid.type === type).length;
      const bodiless = count("THead") > 0 && count("TBody") === 0;
      return when(count("THead") > 1 || bodiless, `${called(table)} holds ${kinds(table)}`);
    }),
  ),
  ua("7.2-15", (file) => grids(file).flatMap(({ overlaps }) => overlaps.map((cell) => `${called(cell)} on another`))),
  ua("7.2-36, 7.2-37", (file) =>
    elements(file, "THead", "TBody").flatMap((part) =>
      part.children.filter(({ type }) => type !== "TR").map((kid) => `${called(kid)} in ${part.type}`),
    ),
  ),
  ua("7.2-42", (file) =>
    grids(file).flatMap(({ table, widths }) =>
      when(new Set(widths).size > 1, `${called(table)}: rows of ${[...new Set(widths)].join(" and ")} columns`),
    ),
  ),
  ua("7.5-1", (file) =>
    elements(file, "TH")
      .filter((cell) => !["Row", "Column", "Both"].includes(scopeOf(file, cell) ?? ""))
      .map((cell) => `${called(cell)} has no scope`),
  ),
  ua("7.5-2", (file) =>
    grids(file).flatMap(({ cells }) => {
      const heads = cells.filter(({ cell }) => cell.type === "TH").map(({ cell }) => idOf(file, cell));
      return cells.flatMap(({ cell }) =>
        headersOf(file, cell)
          .filter((id) => !heads.includes(id))
          .map((id) => `${called(cell)}: ${id} is no head of its table`),
      );
    }),
  ),
  // Beyond the public list, in our own words.
  ua("7.5 identifiers", (file) => {
    const own = elementsOf(file).flatMap((element) => idOf(file, element) ?? []);
    const wrong = elementsOf(file).filter((element) => {
      const id = idOf(file, element);
      return id !== undefined && identifiers(file).get(id) !== element.number;
    });
    return [
      ...wrong.map((element) => `the identifier of ${called(element)} leads elsewhere`),
      ...when(new Set(own).size !== own.length, "an identifier of two elements"),
      ...[...identifiers(file).keys()].filter((id) => !own.includes(id)).map((id) => `${id} is of no element`),
    ];
  }),
  ua("7.5 headers", (file) =>
    grids(file).flatMap((grid) =>
      grid.cells
        .filter(({ cell, head }) => !head && holdsSomething(cell))
        .flatMap((at) => {
          const named = headersOf(file, at.cell);
          const placed = headsByPlace(file, grid, at).map((head) => idOf(file, head) ?? "");
          return when(named.join(" ") !== placed.join(" "), `${called(at.cell)} names ${named}, not ${placed}`);
        }),
    ),
  ),
  ua("7.5 head and body", (file) =>
    grids(file).flatMap(({ cells }) =>
      cells
        .filter(({ cell, head }) => head !== (cell.type === "TH" && scopeOf(file, cell) === "Column"))
        .filter(({ cell }) => holdsSomething(cell))
        .map(({ cell, head }) => `${called(cell)} in the ${head ? "head" : "body"}`),
    ),
  ),
];

const idOf = (file: PdfFile, { dict }: Element) => textOf(get(file, dict, "ID"));
const holdsSomething = ({ content, children }: Element): boolean => content.length > 0 || children.length > 0;
