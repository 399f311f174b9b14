import { join } from "node:path";
import { hasError } from "../../diagnostics/build.ts";
import type { Diagnostic, Sources } from "../../diagnostics/diagnostic.ts";
import { buildAttachments } from "../../embed/embedded-files.ts";
import type { MissingGlyph } from "../../layout/missing-glyphs.ts";
import type { Page } from "../../layout/page.ts";
import { paintPdf } from "../../pdf/paint.ts";
import { type ImageSize, imageSizes } from "../../pdf/pictures.ts";
import { type Evaluation, evaluateJob, type Overrides } from "../../pipeline/evaluate.ts";
import { catalogueFileName } from "../../pipeline/file-name.ts";
import { fitPhotos } from "../../pipeline/fit-photos.ts";
import { layOut, sheetMetadata } from "../../pipeline/lay-out.ts";
import { locateMissingGlyphs } from "../../pipeline/locate-missing-glyphs.ts";
import { placeFaults } from "../../pipeline/place-faults.ts";
import {
  type ContentResult,
  photoSpan,
  picturesOf,
  type Resources,
  sheetContent,
} from "../../pipeline/render-sheet.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { UsageError } from "../environment.ts";
import { findJobs } from "../find-jobs.ts";
import { CATALOGUE, issueOf } from "../issued/check-issue.ts";
import { checkFiles, issueFiles } from "../issued/issue-files.ts";
import { openRegisters } from "../issued/register.ts";
import { openResources } from "../open-resources.ts";
import { countNoun, openFolder, report, writeOutput } from "../report.ts";
import { blockName, buildCatalogueSheet, type ProductPage, pictureName } from "./catalogue-sheet.ts";

type CatalogueOptions = Overrides & { readonly outFolder: string };
type Product = NonNullable<Evaluation["drawable"]> &
  ProductPage &
  Pick<ContentResult, "templateSource" | "sources"> & { readonly shopFile?: string };

/** One PDF of all products among the jobs: contents, then a page each. With one product refused there is none: it would not be all. */
export async function makeCatalogue(
  asked: readonly string[],
  options: CatalogueOptions,
  environment: Environment,
): Promise<ExitCode> {
  const resources = openResources(environment);
  const { products, sources, refused } = loadProducts(asked, options, resources, environment);
  if (refused > 0) {
    environment.err(`no catalogue was written: ${countNoun(refused, "job")} refused\n`);
    return 1;
  }
  if (products.length === 0) throw new UsageError("there is no product among these jobs: a product has `product:`");
  const shops = [...new Set(products.map(({ shopFile }) => shopFile ?? "none"))];
  if (shops.length > 1)
    throw new UsageError(`a catalogue is of one shop, and these are of ${shops.length}: ${shops.join(", ")}`);

  const { pages, diagnostics, images, sheet } = layOutCatalogue(products, resources);
  report(diagnostics, sources, environment);
  if (hasError(diagnostics)) return 1;
  const issues = products.map(issueOf);
  const isDraft = issues.some(({ draft }) => draft);
  const name = catalogueFileName(products[0]!.model.shop.name ?? "products", sheet.issued, isDraft);
  const folder = openFolder(options.outFolder, environment);
  const output = { folder, registers: openRegisters(environment) };
  const request = { issues, files: [{ sheet: CATALOGUE, file: name }], output, sources };
  const { verdict } = checkFiles(request, environment);
  if (verdict !== "write") return verdict === "refused" ? 1 : 0;
  const photos = await fitPhotosOf(products, pages, imageSizes(images), resources);
  report(photos.diagnostics, sources, environment);
  const pdf = await paintPdf(photos.pages, {
    fonts: resources.fonts.family(sheet.theme.font),
    images: new Map([...images, ...photos.fitted]),
    attachments: products.flatMap(({ project, model, figures }) =>
      buildAttachments(project, model, figures).map((file) => ({
        ...file,
        name: `${model.identity.number.replace(/[^\w.-]+/g, "-")}-${file.name}`,
        description: `${model.identity.title}: ${file.description}`,
      })),
    ),
    meta: sheetMetadata(sheet, environment.version),
  });
  if (!issueFiles(request, environment)) return 1;
  writeOutput(join(folder, name), pdf, environment);
  return 0;
}

/** The products among the jobs, in the order of their part numbers; `refused` counts the jobs with an error. */
function loadProducts(
  asked: readonly string[],
  options: Overrides,
  resources: Resources,
  environment: Environment,
): { readonly products: readonly Product[]; readonly sources: Sources; readonly refused: number } {
  const sources = new Map<string, string>();
  const products: Product[] = [];
  let refused = 0;
  for (const job of findJobs(asked, environment)) {
    const evaluation = evaluateJob(job, options, environment.io, environment.cwd, resources.cache);
    const { drawable, diagnostics, shopFile } = evaluation;
    if (drawable && drawable.model.identity.kind !== "product") continue;
    const content = drawable && sheetContent(drawable, "catalogue", options, resources);
    const all = [...diagnostics, ...(content?.diagnostics ?? [])];
    for (const [file, text] of [...evaluation.sources, ...(content?.sources ?? [])]) sources.set(file, text);
    report(all, sources, environment);
    if (!drawable || !content?.sheet || hasError(all)) refused++;
    else products.push({ ...drawable, ...content, sheet: content.sheet, ...(shopFile ? { shopFile } : {}) });
  }
  products.sort((a, b) => partOrder.compare(a.model.identity.number, b.model.identity.number));
  return { products, sources, refused };
}

/** Part numbers as one counts: FD-9 before FD-16. */
const partOrder = new Intl.Collator("en", { numeric: true });

/** Lays out twice: page numbers are known after the first pass, and do not change the height of the contents. */
function layOutCatalogue(products: readonly Product[], resources: Resources) {
  const images = pictures(products, ({ project, model }) => picturesOf(project, model));
  const sizes = imageSizes(images);
  const first = layOut(
    buildCatalogueSheet(products, () => "0"),
    sizes,
    resources,
  );
  const sheet = buildCatalogueSheet(products, (i) => String(pageNumber(i, first.pages)));
  const { pages, diagnostics, missing } = layOut(sheet, sizes, resources);
  const faults = missing ? missing.flatMap((one) => locateGlyph(one, products)) : diagnostics;
  return { pages, diagnostics: placeInProducts(faults, products), images, sheet };
}

const pageNumber = (product: number, pages: readonly Page[]): number =>
  pages.findIndex(({ items }) => items.some(({ block }) => block.startsWith(blockName(product, "")))) + 1;

/** Locates a character that the font lacks: in the product of its block, or for the contents in any. */
function locateGlyph(missing: MissingGlyph, products: readonly Product[]): readonly Diagnostic[] {
  const own = productOf(missing.about.block, products);
  const found = (own ? [own] : products).flatMap(({ project, templateSource }) =>
    locateMissingGlyphs([missing], project, templateSource),
  );
  const placed = found.filter(({ at }) => at);
  return placed.length > 0 ? placed : [missing.about];
}

/** Gives each fault a place in its product, else in the first one, and says those of one place once. */
function placeInProducts(faults: readonly Diagnostic[], products: readonly Product[]): readonly Diagnostic[] {
  const placed = faults.flatMap((fault) => {
    const { project, templateSource } = productOf(fault.block, products) ?? products[0]!;
    const block = fault.block?.replace(/^\d+\. /, "");
    return placeFaults([{ ...fault, ...(block === undefined ? {} : { block }) }], project, templateSource);
  });
  return [...new Map(placed.map((one) => [JSON.stringify([one.code, one.at]), one])).values()];
}

const productOf = (block: string | undefined, products: readonly Product[]): Product | undefined =>
  products.find((_, product) => block?.startsWith(blockName(product, "")));

const fitPhotosOf = (
  products: readonly Product[],
  pages: readonly Page[],
  sizes: ReadonlyMap<string, ImageSize>,
  { downscale }: Resources,
) => {
  const photos = pictures(products, ({ project }) => project.images);
  const owners = pictures(
    products,
    ({ project }) => new Map([...project.images.keys()].map((name) => [name, photoSpan(name, project)])),
  );
  return fitPhotos(pages, sizes, photos, downscale, (name) => owners.get(name));
};

/** Collects one property of every product's pictures, by their names in the catalogue. */
const pictures = <T>(
  products: readonly Product[],
  of: (product: Product) => ReadonlyMap<string, T>,
): ReadonlyMap<string, T> =>
  new Map(
    products.flatMap((product, i) => [...of(product)].map(([name, value]) => [pictureName(i, name), value] as const)),
  );
