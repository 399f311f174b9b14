import { join, resolve } from "node:path";
import { hasError } from "../../diagnostics/build.ts";
import type { Diagnostic, Sources } from "../../diagnostics/diagnostic.ts";
import { buildAttachments } from "../../embed/embedded-files.ts";
import { removeStaleTempFiles } from "../../io/temporary-file.ts";
import type { Page } from "../../layout/page.ts";
import { paintPdf } from "../../pdf/paint.ts";
import { imageSizes } from "../../pdf/pictures.ts";
import { type Evaluation, evaluateJob, type Overrides } from "../../pipeline/evaluate.ts";
import { catalogueFileName } from "../../pipeline/file-name.ts";
import { fitPhotos } from "../../pipeline/fit-photos.ts";
import { layOut, sheetMetadata } from "../../pipeline/lay-out.ts";
import { picturesOf, sheetContent } from "../../pipeline/render-sheet.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { UsageError } from "../environment.ts";
import { findJobs } from "../find-jobs.ts";
import { checkFile, issueFile } from "../issued/issue-file.ts";
import { openResources } from "../open-resources.ts";
import { countNoun, report, writeOutput } from "../report.ts";
import { blockName, buildCatalogueSheet, type ProductPage, pictureName } from "./catalogue-sheet.ts";

export type CatalogueOptions = Overrides & { readonly outFolder: string };
type Product = NonNullable<Evaluation["drawable"]> &
  ProductPage & { readonly sources: Sources; readonly shopFile?: string };

/** One PDF of all products among the jobs: contents, then a page each. With one product refused there is none: it would not be all. */
export async function makeCatalogue(
  asked: readonly string[],
  options: CatalogueOptions,
  environment: Environment,
): Promise<ExitCode> {
  const resources = openResources(environment);
  const products: Product[] = [];
  let bad = 0;
  for (const job of findJobs(asked, environment)) {
    const { drawable, diagnostics, sources, shopFile } = evaluateJob(
      job,
      options,
      environment.io,
      environment.cwd,
      resources.cache,
    );
    if (drawable && drawable.model.identity.kind !== "product") continue;
    const content = drawable && sheetContent(drawable, "catalogue", options, resources);
    const all = [...diagnostics, ...(content?.diagnostics ?? [])];
    report(all, new Map([...sources, ...(content?.sources ?? [])]), environment);
    if (!drawable || !content?.sheet || hasError(all)) bad++;
    else products.push({ ...drawable, sheet: content.sheet, sources, ...(shopFile ? { shopFile } : {}) });
  }
  if (bad > 0) {
    environment.err(`no catalogue was written: ${countNoun(bad, "job")} refused\n`);
    return 1;
  }
  if (products.length === 0) throw new UsageError("there is no product among these jobs: a product has `product:`");
  const shops = [...new Set(products.map(({ shopFile }) => shopFile ?? "none"))];
  if (shops.length > 1)
    throw new UsageError(`a catalogue is of one shop, and these are of ${shops.length}: ${shops.join(", ")}`);
  products.sort((a, b) => partOrder.compare(a.model.identity.number, b.model.identity.number));

  const { pages, diagnostics, images, sheet } = layOutCatalogue(products, resources);
  report(diagnostics, new Map(), environment);
  if (hasError(diagnostics)) return 1;
  const photos = await fitPhotos(
    pages,
    imageSizes(images),
    photosByName(products),
    resources.downscale,
    () => undefined,
  );
  report(photos.diagnostics, new Map(), environment);
  const pdf = await paintPdf(pages, {
    fonts: resources.fonts,
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

  const folder = resolve(environment.cwd, options.outFolder);
  const file = catalogueFileName(products[0]!.model.shop.name ?? "products", sheet.issued);
  const issue = { sheet: "together", file };
  const verdicts = products.map((one) => checkFile(one, issue, folder, one.sources, environment));
  if (verdicts.some((verdict) => verdict !== "write")) return verdicts.includes("refused") ? 1 : 0;
  if (!products.every((one) => issueFile(one, issue, folder, one.sources, environment))) return 1;
  removeStaleTempFiles(folder);
  writeOutput(join(folder, file), pdf, environment);
  return 0;
}

/** Part numbers as one counts: FD-9 before FD-16. */
const partOrder = new Intl.Collator("en", { numeric: true });

/** Lays out twice: page numbers are known after the first pass, and do not change the height of the contents. */
function layOutCatalogue(products: readonly Product[], resources: ReturnType<typeof openResources>) {
  const images = new Map(
    products.flatMap(({ project, model }, i) =>
      [...picturesOf(project, model)].map(([name, bytes]) => [pictureName(i, name), bytes] as const),
    ),
  );
  const sizes = imageSizes(images);
  const first = layOut(
    buildCatalogueSheet(products, () => "0"),
    sizes,
    resources,
  );
  const sheet = buildCatalogueSheet(products, (i) => String(pageNumber(i, first.pages)));
  const { pages, diagnostics }: { pages: readonly Page[]; diagnostics: readonly Diagnostic[] } = layOut(
    sheet,
    sizes,
    resources,
  );
  return { pages, diagnostics, images, sheet };
}

const pageNumber = (product: number, pages: readonly Page[]): number =>
  pages.findIndex(({ items }) => items.some(({ block }) => block.startsWith(blockName(product, "")))) + 1;

const photosByName = (products: readonly Product[]): ReadonlyMap<string, Uint8Array> =>
  new Map(
    products.flatMap(({ project }, i) =>
      [...project.images].map(([name, bytes]) => [pictureName(i, name), bytes] as const),
    ),
  );
