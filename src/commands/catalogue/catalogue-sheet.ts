import type { Model, Shop } from "../../model/model.ts";
import { shopMasthead } from "../../sheet/blocks/masthead.ts";
import type { BlockContent, Part, Sheet, SheetRow } from "../../sheet/content.ts";
import { presentItems } from "../../sheet/section.ts";
import { dateWords } from "../../sheet/words/dates.ts";

/** A product and the sheet of its page. */
export type ProductPage = { readonly model: Model; readonly sheet: Sheet };

/** Builds one sheet of all products: a page of contents, then a page for each product. */
export function buildCatalogueSheet(products: readonly ProductPage[], pageOf: (product: number) => string): Sheet {
  const [first] = products as readonly [ProductPage, ...ProductPage[]];
  const { shop } = first.model;
  const issued = products
    .map(({ sheet }) => sheet.issued)
    .toSorted()
    .at(-1)!;
  const title = presentItems<string>(["Catalogue", shop.name]).join(", ");
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
    rows: [contentsRow(products, shop, pageOf), ...products.flatMap(({ sheet }, i) => productRows(sheet, i))],
  };
}

/** Name of a picture, unique among all products. */
export const pictureName = (product: number, image: string): string => `${product}:${image}`;

function contentsRow(products: readonly ProductPage[], shop: Shop, pageOf: (product: number) => string): SheetRow {
  const parts: readonly Part[] = [
    ...shopMasthead(shop).map((part) => qualifyPictures(part, 0)),
    { kind: "heading", level: 1, text: "Catalogue" },
    {
      kind: "table",
      title: "Contents",
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

/** A product's rows, starting on a new page; block names carry the product's number, so that its page can be found. */
function productRows({ rows }: Sheet, product: number): readonly SheetRow[] {
  return rows.map((row, r) => ({
    cells: row.cells.map((cell) => ({
      ...cell,
      block: {
        ...cell.block,
        name: blockName(product, cell.block.name),
        parts: cell.block.parts.map((part) => qualifyPictures(part, product)),
      },
    })),
    ...(r === 0 || row.newPage ? { newPage: true } : {}),
  }));
}

/** Name of a product's block in the catalogue. */
export const blockName = (product: number, block: string): string => `${product + 1}. ${block}`;

function qualifyPictures(part: Part, product: number): Part {
  if (part.kind === "pictures")
    return { ...part, pictures: part.pictures.map((one) => ({ ...one, image: pictureName(product, one.image) })) };
  if (part.kind === "cover" && part.picture) {
    const picture = { ...part.picture, image: pictureName(product, part.picture.image) };
    const { logo } = part;
    return { ...part, picture, ...(logo ? { logo: { ...logo, image: pictureName(product, logo.image) } } : {}) };
  }
  if ((part.kind === "masthead" || part.kind === "cover") && part.logo)
    return { ...part, logo: { ...part.logo, image: pictureName(product, part.logo.image) } };
  return part;
}
