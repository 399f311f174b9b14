import { join, resolve } from "node:path";
import { hasError } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { embeddedFiles } from "../../embed/embedded-files.ts";
import { removeStaleTempFiles } from "../../io/temporary-file.ts";
import type { Page } from "../../layout/page.ts";
import { paint } from "../../pdf/paint.ts";
import { imageSizes } from "../../pdf/pictures.ts";
import { type Evaluation, evaluateJob, type Overrides } from "../../pipeline/evaluate.ts";
import { catalogueName } from "../../pipeline/file-name.ts";
import { layOut, metaOf } from "../../pipeline/lay-out.ts";
import { photosFor, picturesOf, sheetContent } from "../../pipeline/render-sheet.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { findJobs } from "../find-jobs.ts";
import { openResources } from "../open-resources.ts";
import { counted, report } from "../report.ts";
import { UsageError } from "../usage-error.ts";
import { writeOutput } from "../write-output.ts";
import { blockName, catalogueSheet, type ProductPage, pictureName } from "./catalogue-sheet.ts";

export type TogetherOptions = Overrides & { readonly outFolder: string };
type Product = NonNullable<Evaluation["drawable"]> & ProductPage & { readonly shopFile?: string };

/** One PDF of all products among the jobs: contents, then a page each. With one product refused there is none: it would not be all. */
export async function makeCatalogue(
  asked: readonly string[],
  options: TogetherOptions,
  world: Environment,
): Promise<ExitCode> {
  const kit = openResources(world);
  const products: Product[] = [];
  let bad = 0;
  for (const job of findJobs(asked, world)) {
    const { drawable, diagnostics, sources, shopFile } = evaluateJob(job, options, world.io, world.cwd, kit.cache);
    if (drawable && drawable.model.identity.kind !== "product") continue;
    const content = drawable && sheetContent(drawable, "catalogue", options, kit);
    const all = [...diagnostics, ...(content?.diagnostics ?? [])];
    report(all, new Map([...sources, ...(content?.sources ?? [])]), world);
    if (!drawable || !content?.sheet || hasError(all)) bad++;
    else products.push({ ...drawable, sheet: content.sheet, ...(shopFile ? { shopFile } : {}) });
  }
  if (bad > 0) {
    world.err(`no catalogue was written: ${counted(bad, "job")} refused\n`);
    return 1;
  }
  if (products.length === 0) throw new UsageError("there is no product among these jobs: a product has `product:`");
  const shops = [...new Set(products.map(({ shopFile }) => shopFile ?? "none"))];
  if (shops.length > 1)
    throw new UsageError(`a catalogue is of one shop, and these are of ${shops.length}: ${shops.join(", ")}`);
  products.sort((a, b) => byPart.compare(a.model.identity.number, b.model.identity.number));

  const { pages, diagnostics, images, sheet } = laidOut(products, kit);
  report(diagnostics, new Map(), world);
  if (hasError(diagnostics)) return 1;
  const photos = await photosFor(pages, imageSizes(images), photosOf(products), kit.downscale, () => undefined);
  report(photos.diagnostics, new Map(), world);
  const pdf = await paint(pages, {
    fonts: kit.fonts,
    images: new Map([...images, ...photos.fitted]),
    attachments: products.flatMap(({ project, model, figures }) =>
      embeddedFiles(project, model, figures).map((file) => ({
        ...file,
        name: `${model.identity.number.replace(/[^\w.-]+/g, "-")}-${file.name}`,
        description: `${model.identity.title}: ${file.description}`,
      })),
    ),
    meta: metaOf(sheet, world.version),
  });

  const folder = resolve(world.cwd, options.outFolder);
  removeStaleTempFiles(folder);
  const file = join(folder, catalogueName(products[0]!.model.shop.name ?? "products", sheet.issued));
  writeOutput(file, pdf, world);
  return 0;
}

/** Part numbers as one counts: FD-9 before FD-16. */
const byPart = new Intl.Collator("en", { numeric: true });

/** Laid out twice: where a product stands is known once all are laid, and its number takes no more room than none. */
function laidOut(products: readonly Product[], kit: ReturnType<typeof openResources>) {
  const images = new Map(
    products.flatMap(({ project, model }, i) =>
      [...picturesOf(project, model)].map(([name, bytes]) => [pictureName(i, name), bytes] as const),
    ),
  );
  const sizes = imageSizes(images);
  const first = layOut(
    catalogueSheet(products, () => "0"),
    sizes,
    kit,
  );
  const sheet = catalogueSheet(products, (i) => String(pageOf(i, first.pages)));
  const { pages, diagnostics }: { pages: readonly Page[]; diagnostics: readonly Diagnostic[] } = layOut(
    sheet,
    sizes,
    kit,
  );
  return { pages, diagnostics, images, sheet };
}

const pageOf = (product: number, pages: readonly Page[]): number =>
  pages.findIndex(({ items }) => items.some(({ block }) => block.startsWith(blockName(product, "")))) + 1;

const photosOf = (products: readonly Product[]): ReadonlyMap<string, Uint8Array> =>
  new Map(
    products.flatMap(({ project }, i) =>
      [...project.images].map(([name, bytes]) => [pictureName(i, name), bytes] as const),
    ),
  );
