import type { Model, Shop } from "../../model/model.ts";
import { shopMasthead } from "../../sheet/blocks/masthead.ts";
import type { BlockContent, Part, Sheet, SheetRow } from "../../sheet/content.ts";
import { said } from "../../sheet/section.ts";
import { dateWords } from "../../sheet/words/dates.ts";

/** A product with the sheet of its own page. */
export type ProductPage = { readonly model: Model; readonly sheet: Sheet };

/** All products as one sheet: a page of contents, then each product's own rows on a page of their own. */
export function catalogueSheet(products: readonly ProductPage[], pageOf: (product: number) => string): Sheet {
  const [first] = products as readonly [ProductPage, ...ProductPage[]];
  const { shop } = first.model;
  const issued = products
    .map(({ sheet }) => sheet.issued)
    .toSorted()
    .at(-1)!;
  const title = said<string>(["Catalogue", shop.name]).join(", ");
  const drafts = products.some(({ model }) => model.identity.draft);
  return {
    ...first.sheet,
    template: "catalogue",
    documentTitle: title,
    subject: "Cylinder head products, as measured",
    identifier: `${title}, ${issued}`,
    issued,
    onePage: false,
    furniture: {
      left: `Catalogue · ${dateWords(issued)}`,
      ...(shop.name ? { middle: shop.name } : {}),
      ...(drafts ? { banner: "DRAFT" } : {}),
    },
    rows: [contents(products, shop, pageOf), ...products.flatMap(({ sheet }, i) => ownPage(sheet, i))],
  };
}

/** The name that a picture of one product goes by among those of all. */
export const pictureName = (product: number, image: string): string => `${product}:${image}`;

function contents(products: readonly ProductPage[], shop: Shop, pageOf: (product: number) => string): SheetRow {
  const parts: readonly Part[] = [
    ...shopMasthead(shop).map((part) => withOwnPictures(part, 0)),
    { kind: "heading", level: 1, text: "Catalogue" },
    {
      kind: "table",
      columns: [
        { title: "Part", align: "left" },
        { title: "Name", align: "left", weight: 2 },
        { title: "Revision", align: "left" },
        { title: "Price", align: "left" },
        { title: "Page", align: "decimal" },
      ],
      rows: products.map(({ model: { identity, text } }, i) => [
        { text: identity.number },
        { text: identity.title },
        { text: String(identity.revision) },
        { text: text.product?.price ?? "" },
        { text: pageOf(i) },
      ]),
      rowHeads: true,
      fifths: false,
      notes: [],
    },
  ];
  return wholeRow({ name: "contents", parts, split: true, priority: 100 });
}

const wholeRow = (block: BlockContent): SheetRow => ({ cells: [{ block, from: 0, span: 6 }] });

/** A product's rows from the top of a page; its blocks bear its number, so that its page can be found. */
function ownPage({ rows }: Sheet, product: number): readonly SheetRow[] {
  return rows.map((row, r) => ({
    cells: row.cells.map((cell) => ({
      ...cell,
      block: {
        ...cell.block,
        name: blockName(product, cell.block.name),
        parts: cell.block.parts.map((part) => withOwnPictures(part, product)),
      },
    })),
    ...(r === 0 || row.newPage ? { newPage: true } : {}),
  }));
}

/** Name of a product's block in the catalogue. */
export const blockName = (product: number, block: string): string => `${product + 1}. ${block}`;

function withOwnPictures(part: Part, product: number): Part {
  if (part.kind === "pictures")
    return { ...part, pictures: part.pictures.map((one) => ({ ...one, image: pictureName(product, one.image) })) };
  if (part.kind === "masthead" && part.logo)
    return { ...part, logo: { ...part.logo, image: pictureName(product, part.logo.image) } };
  return part;
}
